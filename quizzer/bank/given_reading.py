"""The [template.row] and [template.given] of a template: what is drawn, from where."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from quizzer.bank.bounds import said
from quizzer.bank.entries import Given, RowColumn, Spaced, Written
from quizzer.bank.fields import Fields
from quizzer.bank.mends import NO_ROW
from quizzer.bank.tables import Row, Table, with_cells
from quizzer.units import UNITS, Unit

_WAYS = ("value", "one_of", "low", "row")
MOST_VALUES = 100_000


def read_rows(
    fields: Fields, table: Callable[[str], Table | None]
) -> tuple[dict[str, tuple[Row, ...]], dict[str, Table | None]]:
    """The rows each name may draw, and the table behind each name (None where there is no such table)."""
    rows: dict[str, tuple[Row, ...]] = {}
    tables: dict[str, Table | None] = {}
    for name, part in fields.parts("row"):
        found = tables[name] = table(part.text("table"))
        only = part.table("only")
        wanted = {str(given.get("column")) for given in _taken(fields, name)}
        if found is None:
            part.complain("Q902", "table", f"no table {said(part.raw.get('table'))}", "name a file of banks/tables/")
        else:
            rows[name] = with_cells(found.rows, wanted & set(found.columns), _only(part, only, found))
            if not rows[name]:
                part.complain("Q904", "only", NO_ROW, "widen `only`")
        part.done()
    return rows, tables


def _taken(fields: Fields, row: str) -> list[dict[str, Any]]:
    given = fields.raw.get("given", {})
    listed = given.values() if isinstance(given, dict) else ()
    return [item for item in listed if isinstance(item, dict) and item.get("row") == row]


def _only(part: Fields, only: Fields, table: Table) -> dict[str, list[Any]]:
    part.has("only")
    chosen: dict[str, list[Any]] = {}
    for column, values in only.raw.items():
        if column not in table.columns or not isinstance(values, list) or not all(map(_is_number, values)):
            only.complain(
                "Q903", column, f"{column} must be a column with a list of numbers", "check the table's [column]"
            )
        else:
            chosen[column] = values
    return chosen


def _is_number(value: Any) -> bool:
    return isinstance(value, (int, Decimal)) and not isinstance(value, bool) and Decimal(value).is_finite()


def read_given(parts: list[tuple[str, Fields]], tables: dict[str, Table | None]) -> tuple[Given, ...]:
    """The quantities in the order they are drawn."""
    return tuple(_given(name, part, tables) for name, part in parts)


def _given(name: str, fields: Fields, tables: dict[str, Table | None]) -> Given:
    ways = [way for way in _WAYS if fields.has(way)]
    say = fields.text("say", "")
    if len(ways) != 1:
        fields.complain("Q106", "", f"{name} needs one of value, one_of, low and high, row", "say where it comes from")
        return Given(name, UNITS["1"], say, (Written(1.0, "1"),))
    if ways == ["row"]:
        given = _from_row(name, fields, say, tables)
    else:
        unit = fields.unit("unit")
        given = Given(name, unit, say, _steps(fields, unit) if ways == ["low"] else _listed(fields, unit, ways[0]))
    given = given._replace(read=fields.flag("read"))
    fields.done()
    return given


def _from_row(name: str, fields: Fields, say: str, tables: dict[str, Table | None]) -> Given:
    row, column = fields.text("row"), fields.text("column")
    table = tables.get(row)
    if table is None or column not in table.columns:
        if table is not None or row not in tables:  # a table that is missing has been complained about once
            what = f"no row {said(row)} with a column {said(column)}"
            fields.complain("Q903", "column", what, "check [template.row] and the table")
        return Given(name, UNITS["1"], say, RowColumn(row, column))
    return Given(name, table.columns[column].unit, say or table.columns[column].say, RowColumn(row, column))


def _steps(fields: Fields, unit: Unit) -> Spaced:
    low, high, step = fields.number("low"), fields.number("high"), fields.number("step", 1)
    if step <= 0 or high < low or (high - low) / step > MOST_VALUES:
        fields.complain("Q107", "step", f"no sensible values from {low} to {high} by {step}", "low <= high, step > 0")
        low, high, step = Decimal(1), Decimal(2), Decimal(1)
    count = int((high - low) / step) + 1
    places = max(_places(low), _places(step))
    return Spaced(float(low) * unit.factor, float(step) * unit.factor, count, places)


def _places(number: Decimal) -> int:
    exponent = number.as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0


def _listed(fields: Fields, unit: Unit, way: str) -> tuple[Written, ...]:
    values = [fields.number("value")] if way == "value" else fields.raw["one_of"]
    if not isinstance(values, list) or not values or not all(map(_is_number, values)):
        fields.complain("Q105", way, f"{way} is {said(values)}", "write a list of numbers")
        return (Written(1.0, "1"),)
    return tuple(Written(float(value) * unit.factor, f"{Decimal(value):f}") for value in values)
