"""Control circuits as rungs between two rails, each rung written as a row of parts with branches."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture import switchgear
from quizzer.picture.components import lit
from quizzer.picture.nets import Net, net_of, stretched
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import Point, spans_of, wide_of
from quizzer.picture.switchgear import SPAN, Along
from quizzer.picture.telling import Untold, counted, ordinal

_LEAD, _RAIL, _MOST = 8.0, 8.0, 15  # of wire beside a part; to where branches meet; parts of a picture
_UP, _DOWN = 27.0, 22.0  # room of a part above and below its line
_RAILS = ("L", "N")


class _Part(NamedTuple):
    draw: Callable[[Pen, Along], None]
    words: str


def _gap(pen: Pen, on: Along) -> None:
    pen.wire(on.start, on.at(12.0))
    pen.wire(on.at(24.0), on.end)


PARTS: Mapping[str, _Part] = {
    "make": _Part(switchgear.make, "make contact {}"),
    "break": _Part(switchgear.breaks, "break contact {}"),
    "start": _Part(switchgear.push_make, "make push-button {}"),
    "stop": _Part(switchgear.push_break, "break push-button {}"),
    "emergency": _Part(switchgear.emergency, "break mushroom button {}"),
    "overload": _Part(switchgear.overload, "break contact of overload relay {}"),
    "slow make": _Part(switchgear.slow_make, "late-closing make contact {}"),
    "slow break": _Part(switchgear.slow_break, "late-opening break contact {}"),
    "coil": _Part(switchgear.coil, "coil {}"),
    "timer": _Part(switchgear.slow_coil, "coil of timer {}"),
    "lamp": _Part(lit, "lamp {}"),
    "fuse": _Part(switchgear.fuse, "fuse {}"),
    "gap": _Part(_gap, "a gap in the wire"),
}


class _Room(NamedTuple):
    wide: float
    down: float


def draw_control(picture: Picture, pen: Pen) -> str:
    """The rungs below each other between their rails; its words go along each from the first rail."""
    nets = [net_of(text, _MOST) for text in picture.texts("rungs")]
    if sum(len(net.labels) for net in nets) > _MOST:
        raise Untold(f"more than {_MOST} parts", "take parts or rungs out")
    rails = tuple(part.strip() for part in picture.text("rails").split(",")) if picture.text("rails") else _RAILS
    if len(rails) != len(_RAILS):
        raise Untold(f"rails are {picture.text('rails')!r}", "name two of them, as L1, L2")
    wide = max(_room(net).wide for net in nets)
    level, levels = 0.0, []
    for net in nets:
        levels.append(level)
        _put(pen, net, (0.0, level), wide)
        level += _room(net).down + _UP
    _rails(pen, rails, levels, wide)
    rungs = " ".join(f"{ordinal(at).capitalize()} rung: {_way(net)}." for at, net in enumerate(nets))
    return f"{counted(len(nets), 'rung').capitalize()} from rail {rails[0]} to rail {rails[1]}. {rungs}"


def part_of(label: str) -> tuple[str, str]:
    """The name and the kind of a part: of "K1 slow make", K1 and slow make. Raises Untold for no kind."""
    name, _, kind = label.partition(" ")
    name, kind = ("", label) if label == "gap" else (name, kind.strip())
    if kind not in PARTS or (kind == "gap" and name):
        raise Untold(f"{label!r} is no part", f"write its name and one of {', '.join(PARTS)}, or gap alone")
    return name, kind


def _room(net: Net) -> _Room:
    if not net.parts:
        name = sum(wide_of(span.text) for span in spans_of(part_of(net.label)[0]))
        return _Room(max(SPAN, name) + 2 * _LEAD, _DOWN)
    rooms = [_room(part) for part in net.parts]
    if not net.beside:
        return _Room(sum(each.wide for each in rooms), max(each.down for each in rooms))
    return _Room(max(each.wide for each in rooms) + 2 * _RAIL, sum(each.down + _UP for each in rooms) - _UP)


def _put(pen: Pen, net: Net, at: Point, wide: float) -> None:
    """A rung or a piece of one from a point to the right, stretched to so much width."""
    x, y = at
    if not net.parts:
        _single(pen, net.label, at, wide)
    elif not net.beside:
        for part, own in stretched(net, wide, lambda each: _room(each).wide):
            _put(pen, part, (x, y), own)
            x += own
    else:
        _branches(pen, net, at, wide)


def _single(pen: Pen, label: str, at: Point, wide: float) -> None:
    (x, y), (name, kind) = at, part_of(label)
    lead = (wide - SPAN) / 2
    PARTS[kind].draw(pen, Along(x + lead, y, lead=lead))
    if name:
        pen.say((x + wide / 2, y - 14), name, "middle")


def _branches(pen: Pen, net: Net, at: Point, wide: float) -> None:
    (x, y), level, levels = at, at[1], []
    left, right = x + _RAIL, x + wide - _RAIL
    for part in net.parts:
        levels.append(level)
        _put(pen, part, (left, level), right - left)
        level += _room(part).down + _UP
    pen.wire((x, y), (left, y))
    pen.wire((right, y), (x + wide, y))
    for end in (left, right):
        pen.wire((end, levels[0]), (end, levels[-1]))
        for level in levels[:-1]:
            pen.dot((end, level))


def _rails(pen: Pen, rails: tuple[str, ...], levels: list[float], wide: float) -> None:
    for x, name in zip((0.0, wide), rails, strict=True):
        pen.wire((x, levels[0] - 20), (x, levels[-1] + 12))
        pen.say((x, levels[0] - 25), name, "middle")
        for level in levels:
            pen.dot((x, level))


def _way(net: Net) -> str:
    if not net.parts:
        name, kind = part_of(net.label)
        return PARTS[kind].words.format(name)
    if not net.beside:
        return ", then ".join(_way(part) for part in net.parts)
    branches = [f"{ordinal(at)}, {_way(part)}" for at, part in enumerate(net.parts)]
    return f"{counted(len(net.parts), 'branch')} ({'; '.join(branches)}) that meet again"
