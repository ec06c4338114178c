"""Rows of published numbers, read with their digits, and templates run on them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

from quizzer.bank.entries import Given, RowColumn, Spaced, Template, Written
from quizzer.bankfiles.shelf import Shelf
from quizzer.question.drawing import draw, run
from tests.shippedbank import SHELF

HERE = Path(__file__).parent

Row = Mapping[str, Any]


@cache
def shelf() -> Shelf:
    """The shipped bank, opened once for all the rows."""
    return SHELF


@cache
def template(id: str) -> Template:
    """The shipped template of an id."""
    found = shelf().find(id)
    assert isinstance(found, Template), f"{id} is a card"
    return found


def read(name: str) -> list[Row]:
    """The rows of a file, numbers as Decimals: the digits printed are part of what is claimed."""
    text = (HERE / name).read_text(encoding="utf-8")
    return tomllib.loads(text, parse_float=Decimal)["row"]


def examples() -> list[tuple[str, Row]]:
    """Every example row with the file it stands in."""
    return [(path.name, row) for path in sorted(HERE.glob("examples-*.toml")) for row in read(path.name)]


def worked(asked: Template, given: Mapping[str, Decimal | int]) -> dict[str, float]:
    """Every value of the template, in declared units, with `given` in place of what it would draw.

    What a row of a table settles follows from the column that is named: 2.5 mm² brings its resistance with it.
    """
    units = asked.units
    own = {name: Written(float(number) * units[name].factor, str(number)) for name, number in given.items()}
    values = run(asked, draw(asked, _first, own).values)
    return {name: number / units[name].factor for name, number in values.items()}


def loose(asked: Template, given: Mapping[str, Decimal | int]) -> set[str]:
    """The quantities the steps use that neither `given` nor a constant nor the row of a named column settles."""
    used = {name for step in asked.steps for name in step.expr.uses}
    return {each.name for each in asked.given if each.name in used and not _settled(asked, each, given)}


def _settled(asked: Template, each: Given, given: Mapping[str, Decimal | int]) -> bool:
    if each.name in given:
        return True
    if isinstance(each.draw, RowColumn):
        row = each.draw.row
        return any(_names(asked, other, row, given) for other in asked.given)
    return not isinstance(each.draw, Spaced) and len(each.draw) == 1


def _names(asked: Template, other: Given, row: str, given: Mapping[str, Decimal | int]) -> bool:
    """Whether `other` is a column of the row, and its given value stands in the table."""
    if other.name not in given or not isinstance(other.draw, RowColumn) or other.draw.row != row:
        return False
    wanted = float(given[other.name]) * other.unit.factor
    cells = [line[other.draw.column][0] for line in asked.rows[row]]
    return any(abs(cell - wanted) <= 1e-9 * wanted for cell in cells)


def half_a_digit(printed: Decimal | int) -> float:
    """Half of the last digit printed: 12.57 stands for anything from 12.565 to 12.575."""
    return 0.5 * 10.0 ** (printed.as_tuple().exponent if isinstance(printed, Decimal) else 0)


def _first() -> float:
    """Dice that always show the first: nothing a row asserts may depend on them."""
    return 0.0
