"""Plots as SVG: shapes and words in black and greys, each plot with a title and a description to be read aloud."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import NamedTuple

_WIDE, _LEFT, _RIGHT, _ROW = 720, 250, 40, 24


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


def intervals(title: str, words: str, rows: Sequence[Interval], most: float, mark: float | None = None) -> Plot:
    """Intervals below each other on a scale from 0 to `most`, with a line to hold them against."""
    bottom = 40 + _ROW * len(rows)
    shapes = [*_axis(most, bottom)]
    for at, row in enumerate(rows):
        shapes += _row(row, 40 + _ROW * at, most)
    if mark is not None:
        shapes.append(_line(_x(mark, most), 30, _x(mark, most), bottom, dashed=True))
    return Plot(title, words, bottom + 30, tuple(shapes))


def bars(title: str, words: str, heights: Sequence[tuple[str, float]], mark: int | None = None) -> Plot:
    """Bars beside each other; those from number `mark` on are dark, the others light and outlined."""
    most = max((height for _, height in heights), default=0.0) or 1.0
    room = (_WIDE - 80) / max(1, len(heights))
    every = max(1, len(heights) // 12)
    shapes = []
    for at, (name, height) in enumerate(heights):
        fill = "#333" if mark is None or at >= mark else "#ddd"
        tall = 150 * height / most
        shapes.append(
            f'<rect x="{40 + at * room:.1f}" y="{190 - tall:.1f}" width="{room * 0.8:.1f}" height="{tall:.1f}" '
            f'fill="{fill}" stroke="#333" stroke-width="0.5"/>'
        )
        if at % every == 0:
            shapes.append(_text(40 + at * room, 206, name, size=11))
    return Plot(title, words, 220, tuple(shapes))


def svg(title: str, plots: Sequence[Plot], note: str = "") -> str:
    """One file with all plots below each other, and a note at its foot."""
    parts, top = [], 40
    for number, plot in enumerate(plots):
        parts.append(_group(plot, number, top))
        top += plot.height + 20
    words = escape(" ".join(plot.words for plot in plots))
    size = f'viewBox="0 0 {_WIDE} {top + 20}" width="{_WIDE}" height="{top + 20}"'
    look = 'role="img" aria-labelledby="all-title all-words" font-family="sans-serif" lang="en-GB"'
    return "\n".join([
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} {look}>',
        f'<title id="all-title">{escape(title)}</title>',
        f'<desc id="all-words">{words}</desc>',
        f'<rect width="{_WIDE}" height="{top + 20}" fill="#fff"/>',
        _text(10, 26, title, size=18),
        *parts,
        _text(10, top + 6, note, size=11),
        "</svg>",
        "",
    ])  # fmt: skip


def _group(plot: Plot, number: int, top: int) -> str:
    names = f"title-{number} words-{number}"
    inside = "\n".join([_text(10, 16, plot.title, size=14), *plot.shapes])
    return (
        f'<g role="img" aria-labelledby="{names}" transform="translate(0 {top})">'
        f'<title id="title-{number}">{escape(plot.title)}</title>'
        f'<desc id="words-{number}">{escape(plot.words)}</desc>\n{inside}\n</g>'
    )


def _row(row: Interval, y: int, most: float) -> list[str]:
    low, middle, high = (_x(value, most) for value in row[1:])
    ends = [_line(x, y - 5, x, y + 5) for x in (low, high)]
    return [_text(10, y + 4, row.name, size=12), _line(low, y, high, y), *ends,
            f'<circle cx="{middle:.1f}" cy="{y}" r="4" fill="#000"/>']  # fmt: skip


def _axis(most: float, bottom: int) -> list[str]:
    ticks = [most * at / 4 for at in range(5)]
    words = [f"{tick:.0%}" if most == 1 else f"{tick:g}" for tick in ticks]
    return [_line(_x(0, most), bottom, _x(most, most), bottom),
            *(_text(_x(tick, most) - 8, bottom + 16, word, size=11)
              for tick, word in zip(ticks, words, strict=True))]  # fmt: skip


def _x(value: float, most: float) -> float:
    return _LEFT + (_WIDE - _LEFT - _RIGHT) * value / most


def _line(x: float, y: float, to_x: float, to_y: float, *, dashed: bool = False) -> str:
    dash = ' stroke-dasharray="5 4"' if dashed else ""
    return f'<line x1="{x:.1f}" y1="{y:.1f}" x2="{to_x:.1f}" y2="{to_y:.1f}" stroke="#000"{dash}/>'


def _text(x: float, y: float, words: str, *, size: int) -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="#000">{escape(words)}</text>'
