"""Blocks of a report laid out for a terminal. Bars are characters with their value beside them, never colour alone."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import assert_never

from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.symbols import spelled
from quizzer.render.typst.report import Bar, Bars, Block, Heading, PageBreak, Paragraph, Picture, Points, Table

GAP = 2
NARROWEST = 12  # a column of words is not squeezed below this
BAR = 32
FILLED, POINT, ENDS, LINE = "█", "■", "├┤", "─"
PLAIN_FILLED, PLAIN_POINT, PLAIN_ENDS, PLAIN_LINE = "#", "o", "[]", "-"


def add_blocks(page: Canvas, blocks: Sequence[Block]) -> None:
    """Every block under the one before."""
    before: Block | None = None
    for block in blocks:
        if isinstance(before, Points) and isinstance(block, Paragraph):
            page.gap()
        _add(page, block)
        before = block


def visible(text: str) -> str:
    """The text without characters that steer a terminal: names come from files.

    >>> visible("Asha" + chr(27) + "[2J" + chr(10) + "x")
    'Asha?[2J?x'
    """
    return text if text.isprintable() else "".join(each if each.isprintable() else "?" for each in text)


def lined(text: str) -> str:
    r"""The text made visible, its line breaks kept: a record sheet has a reading on each line.

    >>> lined("Readings:\nsocket 1" + chr(27))
    'Readings:\nsocket 1?'
    """
    return "\n".join(visible(line) for line in text.split("\n"))


def _add(page: Canvas, block: Block) -> None:
    match block:
        case Heading(text=text, level=level):
            _heading(page, visible(text), level)
        case Paragraph(text=text, bold=bold, framed=framed):
            page.text(lined(text), style="caution" if framed else "bold" if bold else "")
        case Points(points=points):
            for point in points:
                page.text(f"- {visible(point)}", hang=2)
        case Table():
            _table(page, block)
        case Bars():
            _bars(page, block)
        case Picture(plot=plot):
            page.text(visible(f"{plot.title}: {plot.words}"))
        case PageBreak():
            page.gap()
        case _:
            assert_never(block)


def _heading(page: Canvas, text: str, level: int) -> None:
    page.gap()
    if level <= 2:
        page.heading(text)
    else:
        page.text(text, style="bold")


def _table(page: Canvas, table: Table) -> None:
    page.gap()
    if table.title:
        page.text(visible(table.title), style="bold")
    rows = [[_cell(page, cell) for cell in row] for row in (table.heads, *table.rows)]
    widths = _widths(rows, table.right, page.look.width)
    for at, row in enumerate(rows):
        page.lines += [page.styled(line, "" if at else "bold") for line in _row(row, widths, table.right)]
    page.gap()


def _cell(page: Canvas, text: str) -> str:
    return spelled(visible(text)) if page.look.plain else visible(text)


def _widths(rows: Sequence[Sequence[str]], right: Sequence[int], room: int) -> list[int]:
    """Each column as wide as it needs; then the widest columns of words give way until the row fits."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    words = [at for at in range(len(widths)) if at not in right]
    while words and sum(widths) + GAP * (len(widths) - 1) > room:
        widest = max(words, key=lambda at: widths[at])
        if widths[widest] <= NARROWEST:
            break
        widths[widest] -= 1
    return widths


def _row(row: Sequence[str], widths: Sequence[int], right: Sequence[int]) -> list[str]:
    cells = [textwrap.wrap(cell, width, break_on_hyphens=False) or [""]
             for cell, width in zip(row, widths, strict=True)]  # fmt: skip
    lines = []
    for at in range(max(map(len, cells))):
        parts = [cell[at] if at < len(cell) else "" for cell in cells]
        padded = [part.rjust(width) if column in right else part.ljust(width)
                  for column, (part, width) in enumerate(zip(parts, widths, strict=True))]  # fmt: skip
        lines.append((" " * GAP).join(padded).rstrip())
    return lines


def _bars(page: Canvas, bars: Bars) -> None:
    page.gap()
    if bars.title:
        page.text(visible(bars.title), style="bold")
    labels = [_cell(page, bar.label) for bar in bars.bars]
    texts = [_cell(page, bar.text) for bar in bars.bars]
    label, text = max(map(len, labels), default=0), max(map(len, texts), default=0)
    beside = label + BAR + text + 2 * GAP <= page.look.width
    for bar, name, said in zip(bars.bars, labels, texts, strict=True):
        drawn = _drawn(bar, page.look.plain)
        if beside:
            page.lines.append(f"{name.ljust(label)}  {drawn}  {said}".rstrip())
        else:
            page.text(f"{name}: {said}", hang=4)
            page.lines.append(f"    0 {drawn} 1")
    page.gap()


def _drawn(bar: Bar, plain: bool) -> str:
    """A bar from 0; with an interval its ends and the share between them, on the same scale."""
    if bar.low is None or bar.high is None:
        filled = PLAIN_FILLED if plain else FILLED
        return (filled * max(round(bar.share * BAR), bool(bar.share))).ljust(BAR)
    point, ends, line = (PLAIN_POINT, PLAIN_ENDS, PLAIN_LINE) if plain else (POINT, ENDS, LINE)
    low, high, share = (_place(value) for value in (bar.low, bar.high, bar.share))
    cells = [line if low < at < high else " " for at in range(BAR)]
    cells[low], cells[high], cells[share] = ends[0], ends[1], point
    return "".join(cells)


def _place(value: float) -> int:
    return min(BAR - 1, max(0, round(value * (BAR - 1))))
