"""Tables in columns of characters."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from quizzer.blocks.text import Table
from quizzer.render.terminal.canvas import Canvas

_GAP = 2
_NARROWEST = 12  # a column of words is not squeezed below this


def add_table(canvas: Canvas, table: Table) -> None:
    """The table; columns of words give way until it fits."""
    canvas.gap()
    if table.title:
        canvas.text(table.title, style="bold")
    rows = [[canvas.shown(cell) for cell in row] for row in (table.heads, *table.rows)]
    widths = _widths(rows, {*table.right, *table.whole}, canvas.look.width)
    for at, row in enumerate(rows):
        style = "bold" if at == 0 or (table.total and at == len(table.rows)) else ""
        canvas.lines += [canvas.styled(line, style) for line in _row(row, widths, table.right)]
    canvas.gap()


def _widths(rows: Sequence[Sequence[str]], kept: set[int], room: int) -> list[int]:
    """Each column as wide as it needs; then the widest columns of words give way until the row fits."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    words = [at for at in range(len(widths)) if at not in kept] or [0]
    while sum(widths) + _GAP * (len(widths) - 1) > room:
        widest = max(words, key=lambda at: widths[at])
        if widths[widest] <= _NARROWEST:
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
        lines.append((" " * _GAP).join(padded).rstrip())
    return lines
