"""A room with a bath, or with a shower that has no tray, in side view or plan, and letters where things are.

Drawn to scale. Zones after BS 7671 Section 701: the bath itself; above it to 2.25 m; 0.6 m beyond that; for a shower
without a tray 1.2 m from its fixed outlet, and the lowest 0.1 m there.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen, around
from quizzer.picture.placing import beside, chosen
from quizzer.picture.shapes import SMALL, Point
from quizzer.picture.telling import Untold

_M = 80.0  # units to a metre
_LONG, _WIDE, _TALL = 1.6 * _M, 0.7 * _M, 0.6 * _M  # of the bath
_TOP, _NEXT, _SHOWER, _FLOOR = 2.25 * _M, 0.6 * _M, 1.2 * _M, 0.1 * _M
_ROOM, _CEILING, _ACROSS = 3.3 * _M, 2.6 * _M, 1.75 * _M
_THING = re.compile(
    r"(?P<name>\w): (?:(?P<place>in|under|over)|(?P<out>\d(?:\.\d+)?) m out)(?:, (?P<up>\d(?:\.\d+)?) m up)?$"
)
_MEND = "write A: 0.5 m out, 1.2 m up; A: over, 2 m up; A: in; or A: under; in a plan A: 0.5 m out, or A: in"


class _Thing(NamedTuple):
    name: str
    at: Point
    words: str


def draw_bath_zones(picture: Picture, pen: Pen) -> str:
    """The room with its zones' borders; its words say where each thing is, by what is measured."""
    bath = chosen({"bath": True, "shower without a tray": False}, picture.text("place"), "place")
    side = chosen({"side": True, "plan": False}, picture.text("view"), "view")
    named = chosen({"named": True, "drawn": False}, picture.text("bounds"), "bounds")
    things = [_thing(text, bath, side) for text in picture.texts("things")]
    _room(pen, side)
    (_bath if bath else _shower)(pen, side)
    (_side_bounds if side else _plan_bounds)(pen, bath)
    for thing in things:
        pen.circle(thing.at, 2.2, "mark", "ink")
    for at, text in _names(bath, side) if named else []:
        beside(pen, at, text, SMALL)
    for thing in things:
        beside(pen, thing.at, thing.name)
    where = " ".join(thing.words for thing in things)
    seen = "side view" if side else "plan"
    what = "a bath" if bath else "a shower without a tray"
    borders = f"with the borders of its zones{' and their numbers' if named else ''}"
    return f"A room with {what}, {seen}, {borders}. {where}".strip()


def _thing(text: str, bath: bool, side: bool) -> _Thing:
    found = _THING.match(text)
    if not found or bool(found["up"]) != (side and found["place"] not in ("in", "under")):
        raise Untold(f"{text!r} says no place", _MEND)
    name, place, out, up = found["name"], found["place"], found["out"], found["up"]
    if place and (not bath or (not side and place != "in")):
        raise Untold(f"{text!r} is no place there", _MEND)
    edge, height = "the bath" if bath else "the shower's fixed outlet", f", {up} m above the floor" if up else ""
    words = f"{name} is {place} {edge}{height}." if place else f"{name} is {out} m away from {edge}{height}."
    return _Thing(name, _spot(place, float(out or 0), float(up or 0), bath, side), words)


def _spot(place: str | None, out: float, up: float, bath: bool, side: bool) -> Point:
    x = _LONG / 2 if place else (_LONG if bath else 0.0) + out * _M
    heights = {"in": -_TALL * 0.72, "under": -9.0}
    level = heights.get(place or "", -up * _M) if side else _WIDE / 2 if bath else _ACROSS / 2
    if x > _ROOM - 8 or -level > _CEILING - 8:
        raise Untold("a thing is outside the room", "keep within 1.5 m of the bath, 3.1 m of the shower, 2.4 m up")
    return (x, level)


def _room(pen: Pen, side: bool) -> None:
    if side:
        pen.mark((0.0, -_CEILING), (0.0, 0.0), (_ROOM, 0.0), style="heavy")
        pen.mark((0.0, -_CEILING), (_ROOM, -_CEILING), style="heavy")
    else:
        pen.mark((_ROOM, 0.0), (0.0, 0.0), (0.0, _ACROSS), style="heavy")


def _bath(pen: Pen, side: bool) -> None:
    if not side:
        pen.box(1.5, 1.5, _LONG - 1.5, _WIDE - 1.5)
        return
    pen.mark((1.5, 0.0), (1.5, -_TALL), (_LONG, -_TALL), (_LONG, 0.0), style="line")
    pen.mark((8.0, -_TALL), (20.0, -22.0), (_LONG - 18, -22.0), (_LONG - 8, -_TALL), style="line")


def _shower(pen: Pen, side: bool) -> None:
    y = -2.0 * _M if side else _ACROSS / 2
    pen.mark((0.0, y), (14.0, y), style="line")
    pen.mark((9.0, y + 7), (14.0, y), (19.0, y + 7), style="line", closed=True) if side else pen.circle((18.0, y), 4.0)


def _side_bounds(pen: Pen, bath: bool) -> None:
    first = _LONG if bath else _SHOWER
    far = _LONG + _NEXT if bath else _SHOWER
    pen.mark((0.0, -_TOP), (far, -_TOP), (far, 0.0), style="dashed")
    if bath:
        pen.mark((first, -_TALL), (first, -_TOP), style="dashed")
        _length(pen, (first, 12.0), (far, 12.0), "0.6 m")
    else:
        pen.mark((0.0, -_FLOOR), (far, -_FLOOR), style="dashed")
        _length(pen, (0.0, 12.0), (far, 12.0), "1.2 m")
        pen.say((far + 5, -3.0), "0.1 m", size=SMALL)
    pen.arrow((-12.0, -_TOP / 2), (-12.0, 0.0), "thin")
    pen.arrow((-12.0, -_TOP / 2), (-12.0, -_TOP), "thin")
    pen.say((-17.0, -_TOP / 2 + 4), "2.25 m", "end", SMALL)


def _plan_bounds(pen: Pen, bath: bool) -> None:
    if bath:
        turn = [around((_LONG, _WIDE), _NEXT, angle) for angle in range(0, 91, 15)]
        pen.mark((_LONG + _NEXT, 0.0), *turn, (0.0, _WIDE + _NEXT), style="dashed")
        _length(pen, (_LONG, -12.0), (_LONG + _NEXT, -12.0), "0.6 m", -6.0)
    else:
        turn = [around((0.0, _ACROSS / 2), _SHOWER, angle) for angle in range(-45, 46, 9)]
        pen.mark(*turn, style="dashed")
        _length(pen, (0.0, -12.0), (_SHOWER, -12.0), "1.2 m", -6.0)


def _length(pen: Pen, start: Point, end: Point, text: str, below: float = 14.0) -> None:
    middle = ((start[0] + end[0]) / 2, start[1])
    for tip in (start, end):
        pen.arrow(middle, tip, "thin")
    pen.say((middle[0], middle[1] + below), text, "middle", SMALL)


def _names(bath: bool, side: bool) -> list[tuple[Point, str]]:
    """Where the zones' numbers stand."""
    if not side:
        beyond = [((20.0, 40.0), "zones 0, 1"), ((20.0, _WIDE + 20), "zone 2")]
        return beyond if bath else [((30.0, _ACROSS / 2 + 30), "zone 1")]
    if bath:
        return [((36.0, -34.0), "zone 0"), ((36.0, -120.0), "zone 1"), ((_LONG + 2, -150.0), "zone 2")]
    return [((40.0, -120.0), "zone 1"), ((58.0, -4.0), "zone 0")]
