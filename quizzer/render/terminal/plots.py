"""Plots in characters, each value in words beside them; a plain page has the words alone."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.blocks.plots import Column, Columns, Grid, Interval, Intervals, parts, spoken, titled
from quizzer.render.terminal.canvas import Canvas

_GAP, _WIDEST, _NARROWEST = 2, 32, 14
_EIGHTHS = " ▏▎▍▌▋▊▉"
_FIELD = 4  # characters of a field of a grid
_NAME = 12  # characters that the names of a grid have at least


def add_plot(canvas: Canvas, plot: Intervals | Columns | Grid) -> None:
    """The plot under its title."""
    canvas.gap()
    canvas.text(titled(plot), style="bold")
    if canvas.look.plain:
        for line in _spoken(plot):
            canvas.text(line, hang=2)
    elif isinstance(plot, Grid):
        _add_signs(canvas, plot)
        for part in parts(plot, (canvas.look.width - _NAME) // _FIELD):
            _add_grid(canvas, part)
    else:
        _add_rows(canvas, plot)
    canvas.gap()


def bar(value: float, most: float, width: int) -> str:
    """A bar of `value`, where `most` fills the width.

    >>> bar(3, 4, 8)
    '██████'
    """
    eighths = round(8 * width * min(max(value / most, 0.0), 1.0)) if most > 0 else 0
    return "█" * (eighths // 8) + _EIGHTHS[eighths % 8].strip()


def band(low: float, middle: float | None, high: float, width: int, mark: float | None = None) -> str:
    """An interval on a line from 0 to 1 with its middle, where there is one, and a mark to hold it against.

    >>> band(0.25, 0.5, 0.75, 9, 0.9)
    '··├─●─┤·¦'
    """
    line = ["·"] * width
    first, last = _at(low, width), _at(high, width)
    if mark is not None:
        line[min(width - 1, int(mark * width))] = "¦"
    for at in range(first, last + 1):
        line[at] = "─"
    line[first], line[last] = "├", "┤"
    if middle is not None:
        line[_at(middle, width)] = "●"
    return "".join(line)


def _at(share: float, width: int) -> int:
    return min(width - 1, max(0, int(share * width)))


def _spoken(plot: Intervals | Columns | Grid) -> list[str]:
    """The plot in words, a row a line."""
    if isinstance(plot, Grid):
        return [spoken(part._replace(rows=[row])) for part in parts(plot) for row in part.rows]
    rows = plot.rows if isinstance(plot, Intervals) else plot.columns
    return [f"{row.name}: {row.text}" for row in rows]


def _add_rows(canvas: Canvas, plot: Intervals | Columns) -> None:
    """Name, drawing and value on a line; where that is too narrow the drawing under them, or each on a line."""
    rows: Sequence[Interval | Column] = plot.rows if isinstance(plot, Intervals) else plot.columns
    most = plot.most if isinstance(plot, Intervals) else max((each.height for each in plot.columns), default=0.0)
    mark = plot.mark / most if isinstance(plot, Intervals) and plot.mark is not None else None
    names, texts = [canvas.shown(row.name) for row in rows], [canvas.shown(row.text) for row in rows]
    name, text = max(map(len, names), default=0), max(map(len, texts), default=0)
    room = min(_WIDEST, canvas.look.width - name - text - 2 * _GAP)
    together = all(len(f"{one}: {other}") <= canvas.look.width for one, other in zip(names, texts, strict=True))
    for row, named, told in zip(rows, names, texts, strict=True):
        drawn = _drawn(row, most or 1.0, room if room >= _NARROWEST else min(_WIDEST, canvas.look.width - _FIELD), mark)
        if room >= _NARROWEST:
            canvas.lines.append(f"{named.ljust(name)}  {drawn.ljust(room)}  {told}".rstrip())
        else:
            for at, words in enumerate([f"{named}: {told}"] if together else [named, told]):
                canvas.text(words, indent=_FIELD * at)
            canvas.lines.append(f"{' ' * _FIELD}{drawn}".rstrip())


def _drawn(row: Interval | Column, most: float, room: int, mark: float | None) -> str:
    if isinstance(row, Column):
        drawn = bar(row.height, most, room)
        return drawn if row.full else "░" * len(drawn)
    if row.low is None or row.high is None:
        return bar(row.middle or 0.0, most, room)
    middle = None if row.middle is None else row.middle / most
    return band(row.low / most, middle, row.high / most, room, mark)


def _add_signs(canvas: Canvas, grid: Grid) -> None:
    for sign in grid.signs:
        canvas.text(f"{sign.sign:>2}  {sign.name}: {sign.means}", indent=2, hang=6)


def _add_grid(canvas: Canvas, grid: Grid) -> None:
    """Numbered heads, and the rows of signs under their numbers; names that are too long stand above their rows."""
    signs = {sign.name: sign.sign for sign in grid.signs}
    room = canvas.look.width - _FIELD * len(grid.heads)
    canvas.gap()
    for at, head in enumerate(grid.heads, 1):
        canvas.text(f"{at:>4} {head}", hang=5)
    canvas.gap()
    canvas.lines.append(" " * room + "".join(f"{at:>{_FIELD}}" for at in range(1, len(grid.heads) + 1)))
    above = any(len(name) >= room for name, _ in grid.rows)
    for name, fields in grid.rows:
        cells = "".join(f"{signs[field]:>{_FIELD}}" for field in fields)
        if above:
            canvas.text(name)
        canvas.lines.append(f"{'' if above else canvas.shown(name):<{room}}{cells}")
