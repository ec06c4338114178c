"""Plots as SVG: shapes and words in black and greys, each with its title and its words to be read aloud."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from typing import NamedTuple, assert_never

from quizzer.blocks.page import Plot
from quizzer.blocks.plots import Columns, Grid, Interval, Intervals, parts, spoken, titled
from quizzer.render.svg.shapes import BLACK, DARK, LIGHT, MIDDLE, WHITE, box, dot, fitted, line, lines, text


class DrawnWidth(NamedTuple):
    """How wide a drawing of rows or columns is, and how much of that the names of rows have."""

    wide: int
    names: int


PAGE = DrawnWidth(640, 235)  # so that words of size 13 are of size 10 across a page
PHONE = DrawnWidth(340, 130)  # so that they are of size 13 on the screen of a phone
WIDE = PAGE.wide
_EDGE, _RIGHT, _ROW = 10, 25, 25
_NAME, _TICK, _TITLE = 13, 12, 15
_TOP, _TALL = 26, 150  # of columns: where they may begin, and how high the highest is
_FONT = "'Source Sans Pro', 'Source Sans 3', sans-serif"
_LETTERS = f'font-family="{_FONT}" lang="en-GB"'
_SHADES = {"dark": (DARK, WHITE), "middle": (MIDDLE, BLACK), "light": (LIGHT, BLACK), "none": (WHITE, BLACK)}


class PlotDrawing(NamedTuple):
    """A drawn plot: the title, the same in words, the height, the shapes, and the width."""

    title: str
    words: str
    height: int
    shapes: tuple[str, ...]
    wide: int = WIDE


def drawn(plot: Plot, span: DrawnWidth = PAGE) -> Iterator[PlotDrawing]:
    """The plot drawn, so wide; a grid as wide as a page, in as many parts as it needs."""
    match plot:
        case Intervals():
            yield _intervals(plot, span)
        case Columns():
            yield _columns(plot, span)
        case Grid():
            yield from map(_grid, parts(plot))
        case _:
            assert_never(plot)


def picture(drawing: PlotDrawing) -> str:
    """One drawing as an SVG of its own, without its title."""
    return _whole(drawing)


def named_picture(drawing: PlotDrawing) -> str:
    """One drawing for a page that tells its words beside it: its title is its name."""
    inside = f'<rect width="{drawing.wide}" height="{drawing.height}" fill="#fff"/>'
    shapes = "\n".join([inside, *drawing.shapes])
    return f'<svg {_size(drawing)} role="img" aria-label="{escape(drawing.title)}" {_LETTERS}>\n{shapes}\n</svg>'


def svg(title: str, plots: Sequence[Plot], note: str = "") -> str:
    """One file with all plots below each other, and a note at its foot."""
    heads, notes = lines(title, WIDE - 2 * _EDGE, 18), lines(note, WIDE - 2 * _EDGE, _TICK)
    parts, top = [text(_EDGE, 26 + 22 * at, head, size=18) for at, head in enumerate(heads)], 18 + 22 * len(heads)
    drawings = [each for plot in plots for each in drawn(plot)]
    for number, drawing in enumerate(drawings):
        parts.append(_group(drawing, number, top))
        top += drawing.height + 40
    parts += [text(_EDGE, top + 6 + 14 * at, words, size=_TICK) for at, words in enumerate(notes)]
    words = " ".join(each.words for each in drawings)
    return _whole(PlotDrawing(title, words, top + 6 + 14 * len(notes), tuple(parts)))


def _intervals(plot: Intervals, span: DrawnWidth) -> PlotDrawing:
    """Rows below each other on a scale, with a line to hold them against."""
    bottom = 20 + _ROW * len(plot.rows)
    shapes = [*_axis(plot.most, bottom, span)]
    for at, row in enumerate(plot.rows):
        shapes += _row(row, 20 + _ROW * at, plot.most, span)
    if plot.mark is not None:
        x = _x(plot.mark, plot.most, span)
        shapes.append(line(x, 8, x, bottom, dashed=True))
    return PlotDrawing(titled(plot), spoken(plot), bottom + 24, tuple(shapes), span.wide)


def _columns(plot: Columns, span: DrawnWidth) -> PlotDrawing:
    """Columns beside each other, the words of the highest over it; full ones dark, the others light."""
    columns = plot.columns
    most = max((each.height for each in columns), default=0.0) or 1.0
    room = min(60.0, (span.wide - 80) / max(1, len(columns)))
    every = -(-len(columns) // max(1, int((span.wide - 80) / 60)))
    bottom = _TOP + _TALL
    shapes = [line(40, bottom, 40 + room * max(1, len(columns)), bottom)]
    for at, each in enumerate(columns):
        tall, x = _TALL * each.height / most, 40 + at * room
        if tall > 0.1:
            shapes.append(box(x, bottom - tall, room * 0.8, tall, DARK if each.full else LIGHT))
        if at % every == 0:
            shapes.append(text(x + room * 0.4, bottom + 17, each.name, size=_TICK, anchor="middle"))
    if columns:
        highest = max(range(len(columns)), key=lambda at: columns[at].height)
        shapes.append(text(40 + (highest + 0.4) * room, _TOP - 6, columns[highest].text, size=_TICK, anchor="middle"))
    return PlotDrawing(titled(plot), spoken(plot), bottom + 24, tuple(shapes), span.wide)


def _grid(grid: Grid) -> PlotDrawing:
    """Rows of named fields under slanting heads."""
    left = 190
    shades = {sign.name: sign for sign in grid.signs}
    room = min(34.0, (WIDE - left - 60) / max(1, len(grid.heads)))
    top = 14 + min(120, round(max((len(head) for head in grid.heads), default=0) * 5.6))
    shapes = [
        text(left + (at + 0.55) * room, top - 6, fitted(head, 160, _NAME), turned=-45)
        for at, head in enumerate(grid.heads)
    ]
    for at, (name, fields) in enumerate(grid.rows):
        y = top + at * _ROW
        shapes += _named(name, y + 12, left - 2 * _EDGE)
        for column, field in enumerate(fields):
            fill, ink = _SHADES[shades[field].shade]
            shapes.append(box(left + column * room, y, room - 2, _ROW - 2, fill))
            where = left + column * room + room / 2 - 1
            shapes.append(text(where, y + 16, shades[field].sign, anchor="middle", fill=ink))
    foot = "; ".join(f"{sign.sign} {sign.name}" for sign in grid.signs)
    shapes.append(text(_EDGE, top + _ROW * len(grid.rows) + 14, foot, size=_TICK))
    return PlotDrawing(titled(grid), spoken(grid), top + _ROW * len(grid.rows) + 24, tuple(shapes))


def _size(drawing: PlotDrawing) -> str:
    wide, height = drawing.wide, drawing.height
    return f'xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {height}" width="{wide}" height="{height}"'


def _whole(drawing: PlotDrawing) -> str:
    look = f'role="img" aria-labelledby="all-title" aria-describedby="all-words" {_LETTERS}'
    return "\n".join(
        [
            f"<svg {_size(drawing)} {look}>",
            f'<title id="all-title">{escape(drawing.title)}</title>',
            f'<desc id="all-words">{escape(drawing.words)}</desc>',
            f'<rect width="{drawing.wide}" height="{drawing.height}" fill="#fff"/>',
            *drawing.shapes,
            "</svg>",
            "",
        ]
    )


def _group(drawing: PlotDrawing, number: int, top: int) -> str:
    names = f'aria-labelledby="title-{number}" aria-describedby="words-{number}"'
    title = text(_EDGE, 16, fitted(drawing.title, WIDE - 2 * _EDGE, _TITLE), size=_TITLE)
    inside = "\n".join(drawing.shapes)
    return (
        f'<g role="img" {names} transform="translate(0 {top})">'
        f'<title id="title-{number}">{escape(drawing.title)}</title>'
        f'<desc id="words-{number}">{escape(drawing.words)}</desc>\n{title}\n'
        f'<g transform="translate(0 20)">{inside}</g>\n</g>'
    )


def _row(row: Interval, y: int, most: float, span: DrawnWidth) -> list[str]:
    if row.low is None or row.high is None:
        return [
            *_named(row.name, y, span.names - 2 * _EDGE),
            box(_x(0, most, span), y - 6, _x(row.middle or 0.0, most, span) - span.names, 12, DARK),
        ]
    low, high = _x(row.low, most, span), _x(row.high, most, span)
    ends = [line(x, y - 5, x, y + 5) for x in (low, high)]
    return [
        *_named(row.name, y, span.names - 2 * _EDGE),
        line(low, y, high, y),
        *ends,
        *(() if row.middle is None else (dot(_x(row.middle, most, span), y),)),
    ]


def _named(name: str, y: int, room: int) -> list[str]:
    """The name of a row about this height, on two lines where one is too short for it."""
    if len(parts := lines(name, room, _NAME)) < 2:
        return [text(_EDGE, y + 4, name)]
    rest = fitted(" ".join(parts[1:]), room, _TICK)
    return [text(_EDGE, y - 2, parts[0], size=_TICK), text(_EDGE, y + 9, rest, size=_TICK)]


def _axis(most: float, bottom: int, span: DrawnWidth) -> list[str]:
    ticks = [most * at / 4 for at in range(5)]
    words = [f"{tick:.0%}" if most == 1 else f"{tick:g}" for tick in ticks]
    return [
        line(_x(0, most, span), bottom, _x(most, most, span), bottom),
        *(line(_x(tick, most, span), bottom, _x(tick, most, span), bottom + 4) for tick in ticks),
        *(
            text(_x(tick, most, span), bottom + 18, word, size=_TICK, anchor="middle")
            for tick, word in zip(ticks, words, strict=True)
        ),
    ]


def _x(value: float, most: float, span: DrawnWidth) -> float:
    """Where a value stands; one outside of the scale at its end."""
    value = min(max(value, 0.0), most)
    return span.names + (span.wide - span.names - _RIGHT) * value / most
