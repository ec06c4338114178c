"""Plots as SVG: shapes and words in black and greys, each plot with a title and a description to be read aloud."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import NamedTuple

from quizzer.render.svg.shapes import BLACK, DARK, LIGHT, MIDDLE, WHITE, box, dot, fitted, line, lines, text

WIDE = 640  # so that words of size 13 are of size 10 across a page
_EDGE, _LEFT, _RIGHT, _ROW = 10, 235, 25, 25
_NAME, _TICK, _TITLE = 13, 12, 15
_TOP, _TALL = 46, 150  # of bars: where they may begin, and how high the highest is
_FONT = "'Source Sans Pro', 'Source Sans 3', sans-serif"
_SHADES = {"dark": (DARK, WHITE), "middle": (MIDDLE, BLACK), "light": (LIGHT, BLACK), "none": (WHITE, BLACK)}


class Plot(NamedTuple):
    """A plot: its title, the same in words, its height and its shapes."""

    title: str
    words: str
    height: int
    shapes: tuple[str, ...]


class Interval(NamedTuple):
    """A row of a plot: its name, and a middle with the ends of an interval."""

    name: str
    low: float
    middle: float
    high: float


class Cell(NamedTuple):
    """A field of a grid: its sign, and its shade (dark, middle, light or none), which says the same once more."""

    sign: str
    shade: str


def intervals(title: str, words: str, rows: Sequence[Interval], most: float, mark: float | None = None) -> Plot:
    """Intervals below each other on a scale from 0 to `most`, with a line to hold them against."""
    bottom = 40 + _ROW * len(rows)
    shapes = [*_axis(most, bottom)]
    for at, row in enumerate(rows):
        shapes += _row(row, 40 + _ROW * at, most)
    if mark is not None:
        shapes.append(line(_x(mark, most), 28, _x(mark, most), bottom, dashed=True))
    return Plot(title, words, bottom + 24, tuple(shapes))


def bars(title: str, words: str, heights: Sequence[tuple[str, float]], mark: int | None = None, top: str = "") -> Plot:
    """Bars beside each other, `top` written over the highest; dark from number `mark` on, the others light."""
    most = max((height for _, height in heights), default=0.0) or 1.0
    room = min(60.0, (WIDE - 80) / max(1, len(heights)))
    every = -(-len(heights) // max(1, int((WIDE - 80) / 60)))
    bottom = _TOP + _TALL
    shapes = [line(40, bottom, 40 + room * max(1, len(heights)), bottom)]
    for at, (name, height) in enumerate(heights):
        tall, x = _TALL * height / most, 40 + at * room
        if tall > 0.1:
            shapes.append(box(x, bottom - tall, room * 0.8, tall, LIGHT if mark is not None and at < mark else DARK))
        if at % every == 0:
            shapes.append(text(x + room * 0.4, bottom + 17, name, size=_TICK, anchor="middle"))
    if top and heights:
        highest = max(range(len(heights)), key=lambda at: heights[at][1])
        shapes.append(text(40 + (highest + 0.4) * room, _TOP - 6, top, size=_TICK, anchor="middle"))
    return Plot(title, words, bottom + 24, tuple(shapes))


def grid(title: str, words: str, heads: Sequence[str], rows: Sequence[tuple[str, Sequence[Cell]]]) -> Plot:
    """Rows of named fields under slanting heads."""
    left = 190
    room = min(34.0, (WIDE - left - 60) / max(1, len(heads)))
    top = 34 + min(120, round(max((len(head) for head in heads), default=0) * 5.6))
    shapes = [text(left + (at + 0.55) * room, top - 6, fitted(head, 160, _NAME), turned=-45)
              for at, head in enumerate(heads)]  # fmt: skip
    for at, (name, cells) in enumerate(rows):
        y = top + at * _ROW
        shapes += _named(name, y + 12, left - 2 * _EDGE)
        for column, cell in enumerate(cells):
            fill, ink = _SHADES[cell.shade]
            shapes.append(box(left + column * room, y, room - 2, _ROW - 2, fill))
            shapes.append(text(left + column * room + room / 2 - 1, y + 16, cell.sign, anchor="middle", fill=ink))
    return Plot(title, words, top + _ROW * len(rows) + 8, tuple(shapes))


def picture(plot: Plot) -> str:
    """One plot as an SVG of its own."""
    return _whole(plot.title, plot.words, [_group(plot, 0, 0)], plot.height)


def svg(title: str, plots: Sequence[Plot], note: str = "") -> str:
    """One file with all plots below each other, and a note at its foot."""
    heads, notes = lines(title, WIDE - 2 * _EDGE, 18), lines(note, WIDE - 2 * _EDGE, _TICK)
    parts, top = [text(_EDGE, 26 + 22 * at, head, size=18) for at, head in enumerate(heads)], 18 + 22 * len(heads)
    for number, plot in enumerate(plots):
        parts.append(_group(plot, number, top))
        top += plot.height + 20
    parts += [text(_EDGE, top + 6 + 14 * at, words, size=_TICK) for at, words in enumerate(notes)]
    return _whole(title, " ".join(plot.words for plot in plots), parts, top + 6 + 14 * len(notes))


def _whole(title: str, words: str, parts: Sequence[str], height: int) -> str:
    size = f'viewBox="0 0 {WIDE} {height}" width="{WIDE}" height="{height}"'
    look = f'role="img" aria-labelledby="all-title all-words" font-family="{_FONT}" lang="en-GB"'
    return "\n".join([
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} {look}>',
        f'<title id="all-title">{escape(title)}</title>',
        f'<desc id="all-words">{escape(words)}</desc>',
        f'<rect width="{WIDE}" height="{height}" fill="#fff"/>',
        *parts,
        "</svg>",
        "",
    ])  # fmt: skip


def _group(plot: Plot, number: int, top: int) -> str:
    names = f"title-{number} words-{number}"
    inside = "\n".join([text(_EDGE, 16, fitted(plot.title, WIDE - 2 * _EDGE, _TITLE), size=_TITLE), *plot.shapes])
    return (
        f'<g role="img" aria-labelledby="{names}" transform="translate(0 {top})">'
        f'<title id="title-{number}">{escape(plot.title)}</title>'
        f'<desc id="words-{number}">{escape(plot.words)}</desc>\n{inside}\n</g>'
    )


def _row(row: Interval, y: int, most: float) -> list[str]:
    low, middle, high = (_x(value, most) for value in row[1:])
    ends = [line(x, y - 5, x, y + 5) for x in (low, high)]
    return [*_named(row.name, y, _LEFT - 2 * _EDGE), line(low, y, high, y), *ends, dot(middle, y)]


def _named(name: str, y: int, room: int) -> list[str]:
    """The name of a row about this height, on two lines where one is too short for it."""
    if len(parts := lines(name, room, _NAME)) < 2:
        return [text(_EDGE, y + 4, name)]
    rest = fitted(" ".join(parts[1:]), room, _TICK)
    return [text(_EDGE, y - 2, parts[0], size=_TICK), text(_EDGE, y + 9, rest, size=_TICK)]


def _axis(most: float, bottom: int) -> list[str]:
    ticks = [most * at / 4 for at in range(5)]
    words = [f"{tick:.0%}" if most == 1 else f"{tick:g}" for tick in ticks]
    return [line(_x(0, most), bottom, _x(most, most), bottom),
            *(line(_x(tick, most), bottom, _x(tick, most), bottom + 4) for tick in ticks),
            *(text(_x(tick, most), bottom + 18, word, size=_TICK, anchor="middle")
              for tick, word in zip(ticks, words, strict=True))]  # fmt: skip


def _x(value: float, most: float) -> float:
    return _LEFT + (WIDE - _LEFT - _RIGHT) * value / most
