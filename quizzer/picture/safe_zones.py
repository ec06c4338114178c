"""A wall with accessories and cables in it, drawn to scale, with the bands of 150 mm at ceiling and corners.

Prescribed zones after BS 7671 Regulation 522.6.202: those bands, and straight along or up and down from an accessory.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from itertools import pairwise
from math import hypot

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen
from quizzer.picture.placing import along, beside, chosen
from quizzer.picture.shapes import SMALL, Point
from quizzer.picture.telling import Untold

_M, _LONG, _HIGH, _BAND = 100.0, 320.0, 240.0, 15.0
_HALF = 6.0  # of an accessory
_PLACES: Mapping[str, Point] = {"switch": (95.0, 120.0), "unit": (170.0, 105.0), "socket": (235.0, 195.0)}
_NAMES = "|".join(_PLACES)
_STRAIGHT = re.compile(rf"(?P<way>up|down|left|right) from (?P<place>{_NAMES})$")
_SLANT = re.compile(rf"(?P<one>{_NAMES}) to (?P<other>{_NAMES})(?P<bent>, square)?$")
_EDGE = re.compile(r"(?P<far>\d(?:\.\d+)?) m (?P<edge>below the ceiling|from the left corner|from the right corner)$")
_MEND = (
    "write A: up from switch; A: switch to socket; A: switch to socket, square; A: 0.1 m below the ceiling; "
    "or A: 0.1 m from the left corner"
)
_ENDS = {"up": (0.0, -1.0), "down": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}


def draw_safe_zones(picture: Picture, pen: Pen) -> str:
    """The wall, its accessories and its cables with their letters; its words give the way of each cable."""
    bands = chosen({"drawn": True, "none": False}, picture.text("bands"), "bands")
    pen.mark((0.0, 0.0), (_LONG, 0.0), (_LONG, _HIGH), (0.0, _HIGH), closed=True, style="heavy")
    for x, y in _PLACES.values():
        pen.box(x - _HALF, y - _HALF, 2 * _HALF, 2 * _HALF)
    if bands:
        pen.mark((_BAND, _HIGH), (_BAND, _BAND), (_LONG - _BAND, _BAND), (_LONG - _BAND, _HIGH), style="dotted")
    cables = [_cable(text) for text in picture.texts("cables")]
    for _, points, _ in cables:
        pen.wire(*points)
    for name, (x, y) in _PLACES.items():
        beside(pen, (x, y), name, SMALL, 1.6)
    for letter, points, _ in cables:
        along(pen, *_longest(points), letter)
    if bands:
        pen.say((-5.0, _BAND), "150 mm", "end", SMALL)
    ways = " ".join(f"Cable {letter} runs {words}." for letter, _, words in cables)
    border = " Dotted lines mark 150 mm below the ceiling and from each corner." if bands else ""
    what = "A wall between two corners, floor and ceiling, with a switch, a connection unit and a socket in it."
    return f"{what}{border} {ways}".strip()


def _cable(text: str) -> tuple[str, tuple[Point, ...], str]:
    """The letter, the corners and the words of a cable."""
    letter, _, way = text.partition(": ")
    if len(letter) != 1:
        raise Untold(f"{text!r} is no cable", _MEND)
    if straight := _STRAIGHT.match(way):
        return letter, _straight(straight["way"], straight["place"]), f"straight {_spoken(way)}"
    if slant := _SLANT.match(way):
        return letter, *_slant(slant["one"], slant["other"], bool(slant["bent"]))
    if edge := _EDGE.match(way):
        level = " level with it" if edge["edge"].startswith("below") else " straight up and down"
        return letter, _edge(float(edge["far"]), edge["edge"]), f"{way},{level}"
    raise Untold(f"{text!r} is no cable", _MEND)


def _spoken(way: str) -> str:
    return way.replace("from ", "from the ").replace("unit", "connection unit")


def _straight(way: str, place: str) -> tuple[Point, ...]:
    (x, y), (across, down) = _PLACES[place], _ENDS[way]
    start = (x + across * _HALF, y + down * _HALF)
    end = (x if not across else (0.0 if across < 0 else _LONG), y if not down else (0.0 if down < 0 else _HIGH))
    return (start, end)


def _slant(one: str, other: str, bent: bool) -> tuple[tuple[Point, ...], str]:
    if one == other:
        raise Untold(f"a cable from {one} to itself", _MEND)
    (x1, y1), (x2, y2) = _PLACES[one], _PLACES[other]
    right, down = (1.0 if x2 > x1 else -1.0), (1.0 if y2 > y1 else -1.0)
    ends = f"{_spoken(f'from {one}')} to the {other.replace('unit', 'connection unit')}"
    if bent:
        corner = ((x1 + right * _HALF, y1), (x2, y1), (x2, y2 - down * _HALF))
        return corner, f"{ends}, first level, then {'down' if down > 0 else 'up'}"
    return ((x1 + right * _HALF, y1), (x2 - right * _HALF, y2)), f"in a slanting line {ends}"


def _edge(far: float, edge: str) -> tuple[Point, ...]:
    if not 0 < far < 2:
        raise Untold(f"{far} m from an edge", "keep to between 0 and 2 m")
    if edge == "below the ceiling":
        return ((0.0, far * _M), (_LONG, far * _M))
    x = far * _M if "left" in edge else _LONG - far * _M
    return ((x, 0.0), (x, _HIGH))


def _longest(points: tuple[Point, ...]) -> tuple[Point, Point]:
    """The ends of the longest piece."""
    return max(pairwise(points), key=lambda piece: hypot(piece[1][0] - piece[0][0], piece[1][1] - piece[0][1]))
