"""Tables in columns of characters."""

from __future__ import annotations

import textwrap
from collections.abc import Collection, Iterator, Sequence
from itertools import zip_longest

from quizzer.blocks.text import DataTable, spans
from quizzer.render.terminal.canvas import Canvas

_GAP = 2
_NARROWEST = 12  # a column of words is not squeezed below this
_ROOMY = 80  # characters of a screen on which a cell may go on in a second line
_SPANNED = 56  # the same for a table whose first cells stand for several rows: they have the lines for it


def add_table(canvas: Canvas, table: DataTable) -> None:
    """The table; columns of words give way until it fits. Where it cannot, each row stands as lines of its own."""
    canvas.gap()
    if table.title:
        canvas.text(table.title, style="bold")
    # where emphases are sent, a cell of a row needs no mark of what is typed as it stands
    marks = "`" if canvas.look.colour else ""
    rows = [[canvas.shown(cell).replace(marks, "") for cell in row] for row in (table.heads, *table.rows)]
    kept = {*table.right, *table.whole}
    widths = _widths(rows, kept, canvas.look.width)
    if table.spanning:
        widths = _lowest(table, rows, widths, kept)
    if not _fits(rows, widths, _SPANNED if table.spanning else _ROOMY, canvas.look.width):
        _add_apart(canvas, table)
        return
    at = 0
    for many in (1, *filter(None, spans(table))):
        style = "bold" if at == 0 or (table.total and at == len(table.rows)) else ""
        canvas.lines += [canvas.styled(line, style) for line in _together(rows[at : at + many], widths, table.right)]
        at += many
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


def _lowest(table: DataTable, rows: Sequence[Sequence[str]], widths: list[int], kept: Collection[int]) -> list[int]:
    """The room of the columns of words shared out so that the table takes the fewest lines."""
    words = [at for at in range(1, len(widths)) if at not in kept]
    if 0 in kept or len(words) != 1:
        return widths
    (beside,) = words
    room = widths[0] + widths[beside]
    tried = [widths]
    for first in range(_NARROWEST, room - _NARROWEST, 3):
        each = [*widths]
        each[0], each[beside] = first, room - first
        tried.append(each)
    return min(tried, key=lambda each: _lines(table, rows, each))


def _lines(table: DataTable, rows: Sequence[Sequence[str]], widths: Sequence[int]) -> int:
    heights = [
        [len(textwrap.wrap(cell, width, break_on_hyphens=False)) or 1 for cell, width in zip(row, widths, strict=True)]
        for row in rows[1:]
    ]
    total, at = 0, 0
    for many in filter(None, spans(table)):
        part = heights[at : at + many]
        total += max(part[0][0], sum(max(row[1:]) for row in part))
        at += many
    return total


def _fits(rows: Sequence[Sequence[str]], widths: Sequence[int], roomy: int, room: int) -> bool:
    """Whether no row is longer than the screen, and none breaks inside a word, or at all where it is not `roomy`."""
    cells = [(cell, width) for row in rows for cell, width in zip(row, widths, strict=True)]
    parts = [(part, width) for cell, width in cells for part in ((cell,) if room < roomy else cell.split())]
    return sum(widths) + _GAP * (len(widths) - 1) <= room and all(len(part) <= width for part, width in parts)


def _add_apart(canvas: Canvas, table: DataTable) -> None:
    """Each row under its first cell, the others with their heads, as many on a line as are whole there."""
    if table.spanning:
        _add_under(canvas, table)
        return
    for at, row in enumerate(table.rows, 1):
        canvas.text(row[0], style="bold" if table.total and at == len(table.rows) else "")
        told = [(head, cell) for head, cell in zip(table.heads[1:], row[1:], strict=True) if cell]
        for line in _packed(told, canvas.look.width - _GAP - 1):
            canvas.text(line, indent=_GAP, hang=2 * _GAP)
    canvas.gap()


def _add_under(canvas: Canvas, table: DataTable) -> None:
    """The rows that one first cell stands for, under it; a row without a second cell beside it."""
    for first, *rest in table.rows:
        told = ": ".join(filter(None, rest))
        if first and rest[0]:
            canvas.text(first)
        canvas.text(told if rest[0] else f"{first}: {told}", indent=_GAP if rest[0] else 0, hang=2 * _GAP)
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


def _together(rows: Sequence[Sequence[str]], widths: Sequence[int], right: Sequence[int]) -> list[str]:
    """The lines of rows that share their first cell, which goes on beside all of them."""
    if len(rows) == 1:
        return _row(rows[0], widths, right)
    beside = [line for row in rows for line in _row(["", *row[1:]], widths, right)]
    first = textwrap.wrap(rows[0][0], widths[0], break_on_hyphens=False)
    pairs = zip_longest(first, (line[widths[0] :] for line in beside), fillvalue="")
    return [f"{one.ljust(widths[0])}{other}".rstrip() for one, other in pairs]


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
