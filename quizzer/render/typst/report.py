"""A report on paper, from blocks: headings, paragraphs, tables and bars. What it says is worked out elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any, NamedTuple

from quizzer.render.svg.plots import Plot, picture
from quizzer.render.typst.typesetting import DRAWN, pdf

NARROW, WIDE = 14, 60  # characters of a column that is not wrapped; beyond which a longer text wants no more width


class Heading(NamedTuple):
    """A heading of level 2 or 3: the report's title is the only one of level 1."""

    text: str
    level: int = 2


class Paragraph(NamedTuple):
    """A paragraph; in a frame where a reader must not miss it."""

    text: str
    bold: bool = False
    framed: bool = False


class Points(NamedTuple):
    """A list, one point a line."""

    points: Sequence[str]


class Table(NamedTuple):
    """A table with a row of heads, repeated on each page. The first column is text; `right` columns hold figures.

    `whole` columns are never wrapped: only what is short may stand in them.
    """

    title: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]
    right: Sequence[int] = ()
    whole: Sequence[int] = ()


class Bar(NamedTuple):
    """One bar: a share from 0 to 1, its value in words, and how far it may be off (both 0 to 1; None: not known)."""

    label: str
    share: float
    text: str
    low: float | None = None
    high: float | None = None


class Bars(NamedTuple):
    """Bars under each other, on a scale from 0 to 1; `line` draws a line across them (a pass mark), with its words."""

    title: str
    bars: Sequence[Bar]
    line: float | None = None
    line_text: str = ""


class Picture(NamedTuple):
    """A plot with its description, as wide as the page."""

    plot: Plot


class PageBreak(NamedTuple):
    """What follows begins on a page of its own."""


Block = Heading | Paragraph | Points | Table | Bars | Picture | PageBreak
MOCK = "MOCK: not a live result"


def report_pdf(
    title: str, serial: str, blocks: Sequence[Block], day: date, look: str = "standard", head: str = MOCK
) -> bytes:
    """The report as a tagged PDF: `head` at the top of each page, `serial` at its foot; `day` is when it was made.

    `look` is standard, large-print-18, large-print-24 or easy-read.
    """
    plain = [_plain(block) for block in blocks]
    return pdf("report", {"look": look, "title": title, "serial": serial, "head": head, "blocks": plain}, day)


def _plain(block: Block) -> dict[str, Any]:
    if isinstance(block, Picture):
        return {"kind": "picture", DRAWN: picture(block.plot), "words": block.plot.words}
    plain: dict[str, Any] = {"kind": type(block).__name__.lower(), **block._asdict()}
    if isinstance(block, Table):
        plain |= {"rows": [list(row) for row in block.rows], "widths": _widths(block)}
    if isinstance(block, Bars):
        plain["bars"] = [_bar(bar) for bar in block.bars]
    return plain


def _widths(table: Table) -> list[int]:
    """The share of the width each column wants, by its longest text; 0 for columns that are as wide as they need."""
    longest = [max(map(len, column)) for column in zip(table.heads, *table.rows, strict=True)]
    kept = {*table.right, *(at for at in table.whole if longest[at] <= 2 * NARROW)}
    return [0 if at in kept or wide <= NARROW else min(wide, WIDE) for at, wide in enumerate(longest)]


def _bar(bar: Bar) -> dict[str, Any]:
    """A bar with everything inside its scale, whatever was handed in."""
    inside = {
        name: None if value is None else min(1.0, max(0.0, value))
        for name, value in (("share", bar.share), ("low", bar.low), ("high", bar.high))
    }
    return {"label": bar.label, "text": bar.text, **inside}
