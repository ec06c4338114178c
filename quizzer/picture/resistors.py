"""A network of resistors, coils and capacitors, laid out by itself: a row to the right, branches below each other.

An element is a resistor unless its words begin with `coil` or `capacitor`.
"""

from __future__ import annotations

from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture.nets import Net, net_of, stretched
from quizzer.picture.parts import LONG, capacitor, coil, resistor
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import Point, spans_of, wide_of
from quizzer.picture.telling import counted, named, ordinal

_LEAD, _BRANCH, _RAIL = 12.0, 38.0, 12.0  # of wire beside an element; from branch to branch; to where branches meet
_BELOW = 34.0  # from the lowest branch to the supply


class _Room(NamedTuple):
    wide: float
    up: float
    down: float


def draw_resistors(picture: Picture, pen: Pen) -> str:
    """The network between two terminals, or with its supply below it; its words go from the left to the right."""
    net = net_of(picture.text("net"))
    room = _room(net)
    _put(pen, net, (0.0, 0.0), room.wide)
    supply, current = picture.text("supply"), picture.text("current")
    if supply:
        _supplied(pen, room, supply, current)
    else:
        pen.terminal((-3.0, 0.0))
        pen.terminal((room.wide + 3.0, 0.0))
    return _words(net, supply, current)


def _room(net: Net) -> _Room:
    if not net.parts:
        label = sum(wide_of(span.text) for span in spans_of(_kind(net.label)[1]))
        return _Room(max(LONG, label) + 2 * _LEAD, 28.0, 10.0)
    rooms = [_room(part) for part in net.parts]
    if not net.beside:
        return _Room(sum(each.wide for each in rooms), max(each.up for each in rooms), max(each.down for each in rooms))
    inner = sum(each.up + each.down for each in rooms[1:]) + rooms[0].down
    return _Room(max(each.wide for each in rooms) + 2 * _RAIL, rooms[0].up, inner)


def _put(pen: Pen, net: Net, at: Point, wide: float) -> None:
    """The network from a point to the right, stretched to so much width by its wires."""
    x, y = at
    if not net.parts:
        left = x + (wide - LONG) / 2
        pen.wire((x, y), (left, y))
        kind, label = _kind(net.label)
        draw = {"coil": coil, "capacitor": capacitor}.get(kind, resistor)
        pen.wire(draw(pen, (left, y), label), (x + wide, y))
    elif not net.beside:
        for part, own in stretched(net, wide, lambda each: _room(each).wide):
            _put(pen, part, (x, y), own)
            x += own
    else:
        _branches(pen, net, at, wide)


def _kind(label: str) -> tuple[str, str]:
    """What an element is, and what stands beside it.

    >>> _kind("coil L 30 mH"), _kind("R_1 10 Ω")
    (('coil', 'L 30 mH'), ('resistor', 'R_1 10 Ω'))
    """
    first, _, rest = label.partition(" ")
    return (first, rest) if first in ("coil", "capacitor") else ("resistor", label)


def _branches(pen: Pen, net: Net, at: Point, wide: float) -> None:
    """Branches below each other between two rails, the first on the level of the point."""
    (x, y), rooms = at, [_room(part) for part in net.parts]
    left, right, level = x + _RAIL, x + wide - _RAIL, y
    levels: list[float] = []
    for part, room in zip(net.parts, rooms, strict=True):
        level += room.up if levels else 0.0
        levels.append(level)
        _put(pen, part, (left, level), right - left)
        level += room.down
    pen.wire((x, y), (left, y))
    pen.wire((right, y), (x + wide, y))
    for rail in (left, right):
        pen.wire((rail, levels[0]), (rail, levels[-1]))
        for level in levels[:-1]:
            pen.dot((rail, level))


def _supplied(pen: Pen, room: _Room, supply: str, current: str) -> None:
    """Wires round to two terminals below the network, the supply's words between them."""
    low, half = room.down + _BELOW, max(26.0, wide_of(supply) / 2 + 12)
    middle = room.wide / 2
    pen.wire((0.0, 0.0), (0.0, low), (min(middle - half, room.wide), low))
    pen.wire((room.wide, 0.0), (room.wide, low), (max(middle + half, 0.0), low))
    for x in (middle - half, middle + half):
        pen.terminal((x, low))
    pen.say((middle, low + 4.5), supply, "middle")
    if current:
        pen.arrow((-9.0, room.down + 14), (-9.0, room.down - 12))
        pen.say((-16.0, room.down + 4), current, "end")


def _words(net: Net, supply: str, current: str) -> str:
    way = f"From the left end to the right end: {_way(net)}."
    fed = f" Between the two ends is a supply of {named(supply, 'supply')}." if supply else ""
    flows = f" An arrow at the left end is marked {named(current, 'current')}." if current else ""
    return f"{way}{fed}{flows}"


def _way(net: Net) -> str:
    if not net.parts:
        kind, label = _kind(net.label)
        return named(label, kind) if kind == "resistor" else f"a {kind} marked {named(label, kind)}"
    if not net.beside:
        return ", then ".join(_way(part) for part in net.parts)
    branches = "; ".join(f"{ordinal(at)} branch, {_way(part)}" for at, part in enumerate(net.parts))
    return f"{counted(len(net.parts), 'branch')} ({branches}) that meet again"
