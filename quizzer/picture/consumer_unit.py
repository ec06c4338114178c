"""A consumer unit as it is wired: main switch, sides behind RCDs, ways, neutral bars and the earth bar.

Live wires lie to the left, neutral bars to the right. Neutrals of other sides reach a bar at its foot.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture.parts import earth
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, wide_of
from quizzer.picture.telling import Untold

_WAY = re.compile(r"(?P<device>[^:>]+):(?P<load>[^:>]+)(?:>\s*(?P<bar>N\d)\s*)?$")
_FEED_L, _BUS, _DEVICE, _LOAD, _LOAD_END, _BAR, _FEED_N = 0.0, 18.0, 32.0, 122.0, 240.0, 290.0, 332.0
_WIDE, _THICK = 68.0, 12.0  # of a device; of a bar
_ROW, _TALL, _SIDE, _GUEST = 30.0, 44.0, 44.0, 12.0  # from way to way; with an RCBO; an RCD; a neutral from elsewhere
_MEND = "write 'RCD 63 A 30 mA' for a side, 'B32: sockets' for a way, and '> N2' behind it for its neutral's bar"


class _Way(NamedTuple):
    device: str
    load: str
    bar: str  # where its neutral is

    @property
    def tall(self) -> bool:
        """Whether its device takes the neutral too."""
        return self.device.startswith("RCBO")


class _Side(NamedTuple):
    """Ways behind one RCD, or behind none ("")."""

    bar: str
    rcd: str
    ways: tuple[_Way, ...]


def draw_consumer_unit(picture: Picture, pen: Pen) -> str:
    """The board from the main switch down; its words go side by side, way by way."""
    sides = _sides(picture.texts("lines"))
    main = picture.text("main")
    _fits(main, 160.0)
    pen.box(_DEVICE, 0.0, 170.0, 30.0)
    pen.say((_DEVICE + 85, 19.5), main, "middle")
    for x, name in ((_DEVICE + 25, "L"), (_DEVICE + 145, "N")):
        pen.wire((x, -14.0), (x, 0.0))
        pen.say((x, -19.0), name, "middle")
    slots: list[tuple[str, float]] = []  # the free places at the feet of the bars
    tops, level = [], 48.0
    for side in sides:
        tops.append(level)
        level = _side(pen, side, level, slots, sum(way.bar == side.bar for other in sides for way in other.ways))
    pen.wire((_DEVICE, 15.0), (_FEED_L, 15.0), (_FEED_L, tops[-1] + 8))
    pen.wire((_DEVICE + 170, 15.0), (_FEED_N, 15.0), (_FEED_N, tops[-1] + 8))
    for x in (_FEED_L, _FEED_N):
        for top in tops[:-1]:
            pen.dot((x, top + 8))
    _neutrals(pen, sides, tops, slots)
    _earth_bar(pen, level + 16)
    return f"A consumer unit: {main}. {' '.join(map(_said, sides))} Below them is an earth bar; cpcs are not drawn."


def _sides(lines: tuple[str, ...]) -> list[_Side]:
    sides: list[_Side] = []
    for line in lines:
        found = _WAY.match(line)
        if not found and line.startswith("RCD") and ":" not in line:
            sides.append(_Side(f"N{len(sides) + 1}", line.strip(), ()))
        elif found:
            if not sides:
                sides.append(_Side("N1", "", ()))
            if found["bar"] == sides[-1].bar and found["device"].strip().startswith("RCBO"):
                raise Untold(f"{line!r} names the bar that its RCBO is fed from", _MEND)
            way = _Way(found["device"].strip(), found["load"].strip(), found["bar"] or sides[-1].bar)
            sides[-1] = sides[-1]._replace(ways=(*sides[-1].ways, way))
        else:
            raise Untold(f"{line!r} is no line of a board", _MEND)
    bars = {side.bar for side in sides}
    if any(way.bar not in bars for side in sides for way in side.ways) or not all(side.ways for side in sides):
        raise Untold("a bar that there is not, or a side without ways", _MEND)
    return sides


def _side(pen: Pen, side: _Side, top: float, slots: list[tuple[str, float]], neutrals: int) -> float:
    """A side with its wires but the circuits' neutrals; what is returned is its foot."""
    if side.rcd:
        _fits(side.rcd, 160.0)
        pen.box(_DEVICE, top, 170.0, 30.0)
        pen.say((_DEVICE + 85, top + 19.5), side.rcd, "middle")
        pen.wire((_FEED_L, top + 8), (_DEVICE, top + 8))
        pen.wire((_FEED_N, top + 8), (_DEVICE + 170, top + 8))
        pen.wire((_DEVICE + 170, top + 22), (_BAR + _THICK / 2, top + 22), (_BAR + _THICK / 2, top + 32))
    else:
        pen.wire((_FEED_L, top + 8), (_BUS, top + 8))
        pen.wire((_FEED_N, top + 8), (_BAR + _THICK / 2, top + 8), (_BAR + _THICK / 2, top + 32))
    rows, foot = _rows(side, top)
    pen.wire(*([(_DEVICE, top + 22)] if side.rcd else []), (_BUS, top + (22 if side.rcd else 8)), (_BUS, rows[-1]))
    for way, y in zip(side.ways, rows, strict=True):
        _way(pen, way, y)
    own = sum(way.bar == side.bar for way in side.ways)
    slots.extend((side.bar, foot + _GUEST * at) for at in range(neutrals - own))
    foot += _GUEST * (neutrals - own)
    pen.box(_BAR, top + 32, _THICK, foot - top - 32)
    pen.say((_BAR + _THICK + 3, (top + 32 + foot) / 2 + 4), side.bar, size=SMALL)
    return foot + 14


def _rows(side: _Side, top: float) -> tuple[list[float], float]:
    level, rows = top + _SIDE + 6, []
    for way in side.ways:
        rows.append(level)
        level += _TALL if way.tall else _ROW
    return rows, level - 8


def _way(pen: Pen, way: _Way, y: float) -> None:
    _fits(way.device, _WIDE - 6)
    _fits(way.load, _LOAD_END - _LOAD - 6)
    pen.box(_DEVICE, y - 10, _WIDE, 34.0 if way.tall else 20.0)
    pen.say((_DEVICE + _WIDE / 2, y + 4.5), way.device, "middle")
    pen.box(_LOAD, y - 10, _LOAD_END - _LOAD, 20.0)
    pen.say(((_LOAD + _LOAD_END) / 2, y + 4.5), way.load, "middle")
    pen.wire((_BUS, y), (_DEVICE, y))
    pen.wire((_DEVICE + _WIDE, y - 5 if way.tall else y), (_LOAD, y - 5 if way.tall else y))


def _neutrals(pen: Pen, sides: list[_Side], tops: list[float], slots: list[tuple[str, float]]) -> None:
    channel = _LOAD_END + 12
    for side, top in zip(sides, tops, strict=True):
        for way, y in zip(side.ways, _rows(side, top)[0], strict=True):
            if way.tall:
                pen.wire((_DEVICE + _WIDE, y + 17), (_BAR, y + 17))
            if way.bar != side.bar:
                slot = next(each for each in slots if each[0] == way.bar)
                slots.remove(slot)
                pen.wire((_LOAD_END, y), (channel, y), (channel, slot[1]), (_BAR, slot[1]))
                channel += 7
            elif way.tall:
                pen.wire((_LOAD, y + 5), (_DEVICE + _WIDE, y + 5))
            else:
                pen.wire((_LOAD_END, y), (_BAR, y))


def _earth_bar(pen: Pen, y: float) -> None:
    pen.box(_DEVICE, y, 170.0, 18.0)
    pen.say((_DEVICE + 85, y + 13), "earth bar (cpcs not drawn)", "middle", SMALL)
    pen.wire((_DEVICE + 170, y + 9), (_BAR, y + 9))
    earth(pen, (_BAR, y + 9))


def _fits(text: str, room: float) -> None:
    if wide_of(text) > room:
        raise Untold(f"{text!r} is too long", "use fewer words")


def _said(side: _Side) -> str:
    ways = [f"{way.device} for {way.load}, its neutral to {_end(way, side)}" for way in side.ways]
    behind = f"Behind {side.rcd}, with neutral bar {side.bar}" if side.rcd else f"With neutral bar {side.bar}"
    return f"{behind}: {'; '.join(ways)}."


def _end(way: _Way, side: _Side) -> str:
    if way.tall and way.bar == side.bar:
        return f"its RCBO, whose lead goes to bar {way.bar}"
    return f"bar {way.bar}"
