"""A page on paper: its blocks as data for the report's template. Plots are drawn as SVG, with their words beside."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any, assert_never

from quizzer.blocks.page import Page, Shown, shown
from quizzer.blocks.pictures import Picture
from quizzer.blocks.plots import Columns, Grid, Interval, Intervals, titled
from quizzer.blocks.question import CautionNote, Choices, Working
from quizzer.blocks.text import DataTable, Gap, Heading, Listing, PageBreak, Paragraph, Points, Words, said
from quizzer.expression.subscripts import attached
from quizzer.render.svg.drawing import drawn, picture
from quizzer.render.terminal.doing import command
from quizzer.render.typst.mathematics import lines
from quizzer.render.typst.picturing import pictured
from quizzer.render.typst.tabling import tabled
from quizzer.render.typst.typesetting import DRAWN, pdf


def report_pdf(page: Page, day: date, serial: str, head: str, look: str = "standard") -> bytes:
    """The page as a tagged PDF: `head` at the top of each sheet, `serial` at its foot; `day` is when it was made.

    `look` is standard, large-print-18, large-print-24 or wide-spaced.
    """
    blocks = [each for block in shown(page.blocks, "paper") for each in plain(block)]
    content = {"look": look, "title": page.title, "beside": page.beside, "serial": serial, "running": head}
    return pdf("report", content | {"blocks": blocks}, day)


def plain(block: Shown) -> Iterator[dict[str, Any]]:  # noqa: C901  one case a kind of block
    """The block as plain data; a plot of several drawings as a block for each."""
    match block:
        case Columns() | Grid():
            for at, each in enumerate(drawn(block)):
                title = "" if at else each.title
                yield {"kind": "plot", "title": title, DRAWN: picture(each), "words": each.words}
            return
        case Picture():
            yield pictured(block)
        case Paragraph(words=words, role=role, lead=lead):
            yield {"kind": "paragraph", "text": _said(words), "role": role, "lead": lead}
        case Points(points=points, ordered=ordered):
            yield {"kind": "points", "points": [_said(each) for each in points], "ordered": ordered}
        case DataTable():
            yield tabled(block)
        case Intervals(rows=rows, most=most, mark=mark):
            bars = [_bar(row, most) for row in rows]
            line = None if mark is None else mark / most
            yield {"kind": "intervals", "title": titled(block), "bars": bars, "line": line}
        case Working():
            yield {"kind": "steps", "lines": [line._asdict() for line in lines(block)]}
        case CautionNote():
            yield {"kind": "caution", **block._asdict()}
        case Choices(choices=choices):
            yield {"kind": "choices", "choices": [(label, attached(text)) for label, text in choices]}
        case Heading() | Listing() | Gap() | PageBreak():
            yield {"kind": type(block).__name__.lower(), **block._asdict()}
        case _:
            assert_never(block)


def _said(words: Words) -> str:
    return attached(said(words, lambda each: f"`{command(each, 'quizzer')}`"))


def _bar(row: Interval, most: float) -> dict[str, Any]:
    """A bar with everything inside its scale, whatever was handed in."""
    values = {"share": row.middle, "low": row.low, "high": row.high}
    inside = {name: None if value is None else min(1.0, max(0.0, value / most)) for name, value in values.items()}
    return {"label": row.name, "text": row.text, **inside}
