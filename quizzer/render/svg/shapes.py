"""The few shapes that plots are drawn with, as SVG in black and greys, and words fitted into the room there is."""

from __future__ import annotations

import textwrap
from html import escape
from typing import Literal

BLACK, DARK, MIDDLE, LIGHT, WHITE = "#000", "#333", "#bbb", "#eee", "#fff"
_LETTER = 0.54  # the width of a letter, of the size of its line; above the mean, for fonts that we don't choose
Anchor = Literal["start", "middle", "end"]


def text(
    x: float, y: float, words: str, *, size: float = 13, anchor: Anchor = "start", fill: str = BLACK, turned: int = 0
) -> str:
    """Words that begin, are centred, or end at a point; `turned` by so many degrees about it."""
    where = f'x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" fill="{fill}"'
    more = "" if anchor == "start" else f' text-anchor="{anchor}"'
    more += f' transform="rotate({turned} {x:.1f} {y:.1f})"' if turned else ""
    return f"<text {where}{more}>{escape(words)}</text>"


def line(x: float, y: float, to_x: float, to_y: float, *, dashed: bool = False, fill: str = BLACK) -> str:
    """A line between two points."""
    dash = ' stroke-dasharray="5 4"' if dashed else ""
    return f'<line x1="{x:.1f}" y1="{y:.1f}" x2="{to_x:.1f}" y2="{to_y:.1f}" stroke="{fill}"{dash}/>'


def box(x: float, y: float, wide: float, high: float, fill: str) -> str:
    """A filled rectangle with a thin outline, so that light ones are seen on paper too."""
    where = f'x="{x:.1f}" y="{y:.1f}" width="{wide:.1f}" height="{max(high, 0):.1f}"'
    return f'<rect {where} fill="{fill}" stroke="{DARK}" stroke-width="0.5"/>'


def dot(x: float, y: float) -> str:
    """A black dot."""
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{BLACK}"/>'


def fitted(words: str, room: float, size: float) -> str:
    """The words cut to the room they have, with dots where something is cut.

    >>> fitted("Selection and erection", 80, 12), fitted("short", 80, 12)
    ('Selection a…', 'short')
    """
    most = max(1, int(room / (size * _LETTER)))
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def lines(words: str, room: float, size: float) -> list[str]:
    """The words in as many lines as they need; none for no words."""
    return textwrap.wrap(words, max(8, int(room / (size * _LETTER))))
