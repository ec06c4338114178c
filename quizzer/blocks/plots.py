"""Plots as data. Each medium draws them in its own way; what they say in words is said here, once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.values import NamedTuple

_ROWS, _COLUMNS = 25, 14  # of a grid: more would not stand under their heads on a page or a screen


class Interval(NamedTuple):
    """A row: its name and its value in words; a middle, or the ends of an interval, or both."""

    name: str
    text: str
    middle: float | None
    low: float | None = None
    high: float | None = None


class Intervals(NamedTuple):
    """Rows under each other on a scale from 0 to `most`, with a mark to hold them against and what it is."""

    title: str
    rows: Sequence[Interval]
    most: float = 1.0
    mark: float | None = None
    mark_text: str = ""


class Column(NamedTuple):
    """A column: its name, its value in words, how high it is, and whether it is a full one or one of the others."""

    name: str
    text: str
    height: float
    full: bool = True


class Columns(NamedTuple):
    """Columns beside each other, in an order that means something: marks, weeks."""

    title: str
    columns: Sequence[Column]


class Sign(NamedTuple):
    """What may stand in a field of a grid: its name, its sign, its shade, what it means, how a sentence says it."""

    name: str
    sign: str
    shade: str
    means: str
    says: str


class Grid(NamedTuple):
    """Rows of named fields under heads, each field the name of a sign."""

    title: str
    heads: Sequence[str]
    rows: Sequence[tuple[str, Sequence[str]]]
    signs: Sequence[Sign]


def spoken(plot: Intervals | Columns | Grid) -> str:
    """The plot in words, without its title.

    >>> spoken(Intervals("Recall", [Interval("safety", "50 %", 0.5), Interval("testing", "60 %", 0.6)]))
    'safety: 50 %; testing: 60 %.'
    """
    if isinstance(plot, Grid):
        return " ".join(f"{name}: {'; '.join(_row(plot, fields))}." for name, fields in plot.rows)
    rows = plot.rows if isinstance(plot, Intervals) else plot.columns
    return "; ".join(f"{row.name}: {row.text}" for row in rows) + "."


def titled(plot: Intervals | Columns | Grid) -> str:
    """The plot's title, with what its mark is."""
    marked = isinstance(plot, Intervals) and plot.mark is not None and plot.mark_text
    return f"{plot.title} (the line: {marked})" if marked else plot.title


def parts(grid: Grid, columns: int = _COLUMNS) -> Iterator[Grid]:
    """The grid in parts that fit a page: so many rows and columns each, or fewer columns where a page is narrow."""
    columns = min(columns, _COLUMNS)
    for first in range(0, len(grid.heads), columns):
        for top in range(0, len(grid.rows), _ROWS):
            rows = [(name, fields[first : first + columns]) for name, fields in grid.rows[top : top + _ROWS]]
            yield grid._replace(heads=grid.heads[first : first + columns], rows=rows)


def _row(grid: Grid, fields: Sequence[str]) -> Iterator[str]:
    for sign in grid.signs:
        if found := [head for head, each in zip(grid.heads, fields, strict=True) if each == sign.name]:
            yield f"{sign.says} {', '.join(found)}"
