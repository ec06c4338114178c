"""Tables in columns of characters."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from quizzer.blocks.text import DataTable
from quizzer.render.terminal.canvas import Canvas

_GAP = 2
_NARROWEST = 12  # a column of words is not squeezed below this
_ROOMY = 80  # characters of a screen on which a cell may go on in a second line


def add_table(canvas: Canvas, table: DataTable) -> None:
    """The table; columns of words give way until it fits. Where it cannot, each row stands as lines of its own."""
    canvas.gap()
    if table.title:
        canvas.text(table.title, style="bold")
    rows = [[canvas.shown(cell) for cell in row] for row in (table.heads, *table.rows)]
    widths = _widths(rows, {*table.right, *table.whole}, canvas.look.width)
    if not _fits(rows, widths, canvas.look.width):
        _add_apart(canvas, table)
        return
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


def _fits(rows: Sequence[Sequence[str]], widths: Sequence[int], room: int) -> bool:
    """Whether no row is longer than the screen, and none breaks inside a word, or at all where the screen is narrow."""
    cells = [(cell, width) for row in rows for cell, width in zip(row, widths, strict=True)]
    parts = [(part, width) for cell, width in cells for part in ((cell,) if room < _ROOMY else cell.split())]
    return sum(widths) + _GAP * (len(widths) - 1) <= room and all(len(part) <= width for part, width in parts)


def _add_apart(canvas: Canvas, table: DataTable) -> None:
    """Each row under its first cell, the others with their heads, as many on a line as are whole there."""
    for at, row in enumerate(table.rows, 1):
        canvas.text(row[0], style="bold" if table.total and at == len(table.rows) else "")
        told = [(head, cell) for head, cell in zip(table.heads[1:], row[1:], strict=True) if cell]
        for line in _packed(told, canvas.look.width - _GAP - 1):
            canvas.text(line, indent=_GAP, hang=2 * _GAP)
    canvas.gap()


def _packed(told: Sequence[tuple[str, str]], room: int) -> Iterator[str]:
    """Heads with their cells, as many on a line as fit; one that is too long by itself has its head on a line."""
    line = ""
    for head, cell in told:
        one = f"{head}: {cell}"
        if line and len(line) + len(one) + _GAP > room:
            yield f"{line};"
            line = ""
        if len(one) > room:
            yield f"{head}:"
            one = cell
        line = f"{line}; {one}" if line else one
    yield line


def _row(row: Sequence[str], widths: Sequence[int], right: Sequence[int]) -> list[str]:
    cells = [
        textwrap.wrap(cell, width, break_on_hyphens=False) or [""] for cell, width in zip(row, widths, strict=True)
    ]
    lines = []
    for at in range(max(map(len, cells))):
        parts = [cell[at] if at < len(cell) else "" for cell in cells]
        padded = [
            part.rjust(width) if column in right else part.ljust(width)
            for column, (part, width) in enumerate(zip(parts, widths, strict=True))
        ]
        lines.append((" " * _GAP).join(padded).rstrip())
    return lines
