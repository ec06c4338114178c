"""Tables: rows of quantities with their units, and the three ways an expression may look one up."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from quizzer.bank.fields import Fields
from quizzer.units import Unit
from quizzer.values import NamedTuple

# Two cells within a billionth are the same: 2.5 mm² read twice, not two sizes.
_SAME = 1e-9
EVIDENCE = ("published", "memory", "practice")

Row = Mapping[str, tuple[float, str]]  # column -> value in SI, digits as written


class TableColumn(NamedTuple):
    """Unit and meaning of one column."""

    unit: Unit
    say: str


class Table(NamedTuple):
    """A few rows of a published table, with where they come from."""

    id: str
    title: str
    source: str
    edition: str
    evidence: str
    columns: Mapping[str, TableColumn]
    rows: tuple[Row, ...]


def read_table(id: str, fields: Fields) -> Table:
    """The table of a parsed file; complaints go to the file's list."""
    title, source, edition = fields.text("title"), fields.text("source"), fields.text("edition")
    evidence = fields.choice("evidence", EVIDENCE)
    columns = {name: _column(part) for name, part in fields.parts("column")}
    rows = tuple(_row(part, columns) for part in fields.array("row"))
    if not rows:
        fields.complain("Q901", "row", "the table has no rows", "add a [[row]]")
    fields.done()
    return Table(id, title, source, edition, evidence, columns, rows)


def _column(fields: Fields) -> TableColumn:
    column = TableColumn(fields.unit("unit"), fields.text("say", ""))
    fields.done()
    return column


def _row(fields: Fields, columns: Mapping[str, TableColumn]) -> Row:
    fields.flag("from_memory")
    cells = {}
    for name, column in columns.items():
        if fields.has(name):
            number = fields.number(name)
            cells[name] = (float(number) * column.unit.factor, f"{number:f}")
    fields.done()
    return cells


class LookUp(NamedTuple):
    """A table as a function of one value: `find` takes and gives SI; `by` and `give` are the units of its columns.

    `said` is what is looked up and where, with a hole for the value.
    """

    find: Callable[[float], float]
    by: Unit
    give: Unit
    said: str = "{}"

    def words(self, value: str) -> str:
        """What is looked up for a value, and in which table."""
        return self.said.format(value)


def _said_of(table: Table, how: str, by: str, give: str) -> str:
    """A look-up in words: the rated current itself, the size that belongs to a rating, or the value for a size."""
    key, wanted = table.columns[by].say or by, table.columns[give].say or give
    if how == "equal":
        what = f"{wanted} for {key} {{}}"
    else:
        extreme, side = ("smallest", "above") if how == "at_least" else ("greatest", "below")
        what = (
            f"{extreme} {key} at or {side} {{}}" if by == give else f"{wanted} with the first {key} at or {side} {{}}"
        )
    return f"{what} ({table.source})"


def look_up(table: Table, how: str, by: str, give: str) -> LookUp:
    """The cell `give` of the row chosen by the column `by`.

    `how` is "at_least" (smallest row whose `by` is not below the value), "at_most" (largest row not above it) or
    "equal". `find` raises ArithmeticError when no row will do, so that such a draw is thrown away.
    """
    pairs = sorted((row[by][0], row[give][0]) for row in table.rows if by in row and give in row)
    fits: dict[str, Callable[[float, float], bool]] = {
        "at_least": lambda cell, x: cell >= x - abs(x) * _SAME,
        "at_most": lambda cell, x: cell <= x + abs(x) * _SAME,
        "equal": lambda cell, x: abs(cell - x) <= abs(x) * _SAME,
    }
    fit, ordered = fits[how], pairs[::-1] if how == "at_most" else pairs

    def find(x: float) -> float:
        for cell, result in ordered:
            if fit(cell, x):
                return result
        raise ArithmeticError(f"no row of {table.id} has {by} for this value")

    return LookUp(find, table.columns[by].unit, table.columns[give].unit, _said_of(table, how, by, give))


def with_cells(rows: tuple[Row, ...], wanted: set[str], only: Mapping[str, list[Any]]) -> tuple[Row, ...]:
    """The rows that have every wanted cell and, where `only` names a column, one of its values as written."""
    return tuple(
        row
        for row in rows
        if (wanted | set(only)) <= set(row) and all(_listed(row[column][1], values) for column, values in only.items())
    )


def _listed(text: str, values: list[Any]) -> bool:
    return any(float(text) == float(value) for value in values)
