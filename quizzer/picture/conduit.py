"""A length of conduit with its bends between two boxes, in a fixed shape for each kind of bend: not to scale."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from math import atan2, degrees, hypot
from typing import NamedTuple

from quizzer.blocks.pictures import ASKED, Picture
from quizzer.picture.pen import Pen, around
from quizzer.picture.placing import chosen
from quizzer.picture.shapes import SMALL, Anchor, Point
from quizzer.picture.telling import Untold, named

_HALF, _BOX, _RADIUS = 4.0, 20.0, 16.0


class _Bend(NamedTuple):
    """The middle line from box to box, and what it is in words; `bends` has the ends of the sloping piece."""

    line: tuple[Point, ...]
    words: str
    bends: tuple[int, int]


_BENDS: Mapping[str, _Bend] = {
    "right angle": _Bend(
        ((0.0, 110.0), (190.0, 110.0), (190.0, 0.0)), "along a wall, then round a corner and straight up", (1, 1)
    ),
    "set": _Bend(((0.0, 90.0), (150.0, 90.0), (262.0, 25.0)), "along, then up at a slant", (1, 1)),
    "double set": _Bend(
        ((0.0, 90.0), (110.0, 90.0), (196.0, 40.0), (310.0, 40.0)),
        "along, up at a slant, then along at a level",
        (1, 2),
    ),
    "saddle": _Bend(
        ((0.0, 90.0), (70.0, 90.0), (139.0, 50.0), (191.0, 50.0), (260.0, 90.0), (330.0, 90.0)),
        "along, up at a slant, along over a pipe, down at a slant, then along as before",
        (1, 2),
    ),
}


def draw_conduit(picture: Picture, pen: Pen) -> str:
    """The conduit with the measures that it is told; its words give the way and then each measure."""
    bend = chosen(dict(_BENDS), picture.text("bend"), "bend")
    line = _rounded(bend.line)
    for side in (-_HALF, _HALF):
        pen.mark(*_aside(line, side), style="line")
    for at, inner in ((bend.line[0], bend.line[1]), (bend.line[-1], bend.line[-2])):
        x, y = _farther(at, inner)
        pen.box(x - _BOX / 2, y - _BOX / 2, _BOX, _BOX)
    if picture.text("bend") == "saddle":
        pen.circle((165.0, 82.0), 14.0)
    told = [text for text in (_measure(pen, picture, bend, name) for name in _MEASURES) if text]
    pen.say((bend.line[0][0], bend.line[0][1] + 46), "not to scale", "middle", SMALL)
    measures = f" {'; '.join(told).capitalize()}." if told else ""
    return f"A conduit from one box to another: {bend.words}.{measures} It is not drawn to scale."


def _measure(pen: Pen, picture: Picture, bend: _Bend, name: str) -> str:
    """Draw one measure where it is told; its words, or ""."""
    text = picture.text(name)
    if text:
        _MEASURES[name](pen, bend, text)
    return f"{_SAID[name]} is {'asked for' if text == ASKED else named(text, 'length')}" if text else ""


def _angle(pen: Pen, bend: _Bend, text: str) -> None:
    """The angle between the conduit and the line that it leaves."""
    (x, y), turn = bend.line[bend.bends[0]], _turn(bend)
    pen.mark((x + 8, y), (x + 72, y), style="dashed")
    pen.arc((x, y), 34.0, 0.0, turn)
    pen.say((x + 42, y - 8), text) if turn > -60 else pen.say((x - 10, y - 14), text, "end")


def _turn(bend: _Bend) -> float:
    (x1, y1), (x2, y2) = bend.line[bend.bends[0]], bend.line[bend.bends[0] + 1]
    return degrees(atan2(y2 - y1, x2 - x1))


def _height(pen: Pen, bend: _Bend, text: str) -> None:
    """From level to level, beyond the bend."""
    if bend.line[-1][0] == bend.line[-2][0]:
        raise Untold("a right angle has no height beside its last length", "tell `last` in place of height")
    low, top = bend.line[0][1], min(y for _, y in bend.line)
    x = max(x for x, _ in bend.line) + 26
    starts = {low: bend.line[bend.bends[0]][0] + 76, top: max(px for px, py in bend.line if py == top) + 14}
    for level, start in {**starts, bend.line[-1][1]: x - 4}.items():  # off the box at the end
        pen.mark((start, level), (x + 6, level), style="dotted")
    _between(pen, (x, low), (x, top))
    pen.say((x + 8, (low + top) / 2 + 4), text)


def _travel(pen: Pen, bend: _Bend, text: str) -> None:
    """From bend to bend along the slope."""
    (x1, y1), (x2, y2) = (bend.line[at] for at in bend.bends)
    if (x1, y1) == (x2, y2):
        raise Untold("this bend has no slope between two bends", "take travel out, or draw a double set or a saddle")
    long = hypot(x2 - x1, y2 - y1)
    off = (14 * (y2 - y1) / long, -14 * (x2 - x1) / long)
    _between(pen, (x1 + off[0], y1 + off[1]), (x2 + off[0], y2 + off[1]))
    pen.say(((x1 + x2) / 2 + off[0] - 6, (y1 + y2) / 2 + off[1] - 4), text, "end")


def _first(pen: Pen, bend: _Bend, text: str) -> None:
    """From the first box to the first bend."""
    (x1, y), (x2, _) = bend.line[0], bend.line[1]
    _between(pen, (x1, y + 16), (x2, y + 16))
    pen.say(((x1 + x2) / 2, y + 31), text, "middle")


def _last(pen: Pen, bend: _Bend, text: str) -> None:
    """From the last bend to the last box."""
    (x1, y1), (x2, y2) = bend.line[-2], bend.line[-1]
    long = hypot(x2 - x1, y2 - y1)
    level, upright = y1 == y2, x1 == x2
    far = 16.0 if level or upright else -16.0  # below a level piece, above a slanting one
    off = (-far * (y2 - y1) / long, far * (x2 - x1) / long)
    _between(pen, (x1 + off[0], y1 + off[1]), (x2 + off[0], y2 + off[1]))
    x, y = (x1 + x2) / 2 + off[0], (y1 + y2) / 2 + off[1]
    anchor: Anchor = "middle" if level else "start" if upright else "end"
    pen.say((x + (0 if level else 7 if upright else -6), y + (15 if level else 4 if upright else -4)), text, anchor)


_MEASURES = {"first": _first, "angle": _angle, "travel": _travel, "height": _height, "last": _last}
_SAID = {
    "first": "the length from the first box to the first bend",
    "angle": "the angle of the first bend from the line before it",
    "travel": "the length along the slope from bend to bend",
    "height": "the height from level to level",
    "last": "the length from the last bend to the last box",
}


def _between(pen: Pen, start: Point, end: Point) -> None:
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    for tip in (start, end):
        pen.arrow(middle, tip, style="thin")


def _farther(end: Point, inner: Point) -> Point:
    """The middle of the box at an end of the line."""
    across, down = end[0] - inner[0], end[1] - inner[1]
    share = _BOX / 2 / max(abs(across), abs(down))
    return (end[0] + across * share, end[1] + down * share)


def _rounded(line: tuple[Point, ...]) -> list[Point]:
    """The line with its corners cut round."""
    points = [line[0]]
    for before, corner, after in zip(line, line[1:], line[2:], strict=False):
        cut = [_towards(corner, end, _RADIUS) for end in (before, after)]
        for share in (0.0, 0.25, 0.5, 0.75, 1.0):  # a curve of the second degree from cut to cut
            ways = ((1 - share) ** 2, 2 * share * (1 - share), share**2)
            spots = (cut[0], corner, cut[1])
            points.append((_mixed(ways, spots, 0), _mixed(ways, spots, 1)))
    return [*points, line[-1]]


def _mixed(ways: tuple[float, float, float], spots: tuple[Point, Point, Point], axis: int) -> float:
    return sum(way * spot[axis] for way, spot in zip(ways, spots, strict=True))


def _towards(start: Point, end: Point, far: float) -> Point:
    return around(start, far, degrees(atan2(end[1] - start[1], end[0] - start[0])))


def _aside(line: list[Point], far: float) -> list[Point]:
    """The line moved sideways."""
    angles = [degrees(atan2(end[1] - start[1], end[0] - start[0])) for start, end in pairwise(line)]
    at_points = [angles[0], *((one + other) / 2 for one, other in pairwise(angles)), angles[-1]]
    return [around(point, far, angle + 90) for point, angle in zip(line, at_points, strict=True)]
