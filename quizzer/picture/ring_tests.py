"""Tests of a ring drawn: its ends held apart and read one core after another, or joined crosswise and read anywhere."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.blocks.pictures import Picture
from quizzer.picture.cables import CORES, LEVEL, STYLES
from quizzer.picture.floor_words import flaws_told, reading_told, spoken, way_told
from quizzer.picture.floors import ROW, Floor
from quizzer.picture.metering import RADIUS, across, meter, meter_stop, pair_of
from quizzer.picture.pen import Pen
from quizzer.picture.ring import floor_told, put_floor
from quizzer.picture.shapes import SMALL, Point, wide_of
from quizzer.picture.telling import Untold

_READ = {"L": "line", "N": "neutral", "E": "protective"}
_FIRST, _ASIDE, _LINKS = -48.0, 16.0, (-34.0, -50.0)  # of the meters; between two of them; of the two links


def draw_end_to_end(picture: Picture, pen: Pen) -> str:
    """A ring whose ends are apart at the board, and a meter between both ends of each core that has a reading."""
    floor, flaws = floor_told(picture, closed=True)
    readings = {core: picture.text(name) for core, name in _READ.items() if picture.text(name)}
    if not readings:
        raise Untold("no core is read", "tell line, neutral or protective its reading or its name")
    put_floor(pen, floor, flaws, picture)
    _ends(pen, floor)
    left = _FIRST
    for core in reversed(CORES):
        if core in readings:
            one, other = _both(floor, core)
            pen.wire(one, (left, one[1]), (left, ROW / 2 - RADIUS), style=STYLES[core])
            pen.wire((left, ROW / 2 + RADIUS), (left, other[1]), other, style=STYLES[core])
            meter(pen, (left, ROW / 2))
            pen.say((left - RADIUS - 4, ROW / 2 + 4), readings[core], "end", SMALL)
            left -= 2 * RADIUS + wide_of(readings[core], SMALL) + _ASIDE
    read = "".join(f" A meter between the two ends of {core}{reading_told(text)}." for core, text in readings.items())
    return f"{way_told(picture, floor)} At the board all ends are apart.{read}{flaws_told(floor, flaws)}"


def draw_cross_connected(picture: Picture, pen: Pen) -> str:
    """A ring whose ends are joined at the board, line to another core, and a meter there or at a point."""
    floor, flaws = floor_told(picture, closed=True)
    (_, core), same = pair_of(f"L {picture.text('joined')}"), picture.text("ends") == "same"
    put_floor(pen, floor, flaws, picture)
    _ends(pen, floor)
    (_JOIN["same"] if same else _JOIN["crossed"])(pen, floor, core)
    number = meter_stop(picture, floor, default=0)
    reading = picture.text("reading")
    if number:
        across(pen, floor, number, ("L", core), reading)
    else:
        _across_board(pen, floor, reading, (_LINKS[0], _LINKS[0] if same else _LINKS[1]))
    joined = f"each end of L is joined to the end of {core} in the {'same' if same else 'other'} leg"
    where = f"L and {core} at {spoken(floor, number)}" if number else "the two joints"
    read = f" A meter between {where}{reading_told(reading)}."
    return f"{way_told(picture, floor)} At the board {joined}.{read}{flaws_told(floor, flaws)}"


def _both(floor: Floor, core: str) -> tuple[Point, Point]:
    """The two ends of a core at the board."""
    if floor.back is None:
        raise Untold("there is no way back", "have a ring")
    return floor.stops[0].terminal(core), floor.back.terminal(core)


def _ends(pen: Pen, floor: Floor) -> None:
    """A dot at each end, and its letter above the core."""
    for core in CORES:
        for x, y in _both(floor, core):
            pen.dot((x, y))
            pen.say((x + 5, y - 2.4), core, size=SMALL - 1)
    pen.say((-16.0, ROW + LEVEL + SMALL + 6), "ends at the board", size=SMALL)


def _crossed(pen: Pen, floor: Floor, core: str) -> None:
    (one, last), (first, other) = _both(floor, "L"), _both(floor, core)
    for start, end, x in ((one, other, _LINKS[0]), (last, first, _LINKS[1])):
        pen.wire(start, (x, start[1]), (x, end[1]), end)


def _same(pen: Pen, floor: Floor, core: str) -> None:
    x = _LINKS[0]
    for start, end in zip(_both(floor, "L"), _both(floor, core), strict=True):
        pen.wire(start, (x, start[1]), (x, end[1]), end)


_JOIN: dict[str, Callable[[Pen, Floor, str], None]] = {"crossed": _crossed, "same": _same}


def _across_board(pen: Pen, floor: Floor, reading: str, joints: tuple[float, float]) -> None:
    """A meter from one joint to the other, to the left of both."""
    (_, top), (_, low) = _both(floor, "L")
    x = _LINKS[1] - 2 * RADIUS - 4
    for joint, y, edge in zip(joints, (top, low), (ROW / 2 - RADIUS, ROW / 2 + RADIUS), strict=True):
        pen.wire((joint, y), (x, y), (x, edge))
        pen.dot((joint, y))
    meter(pen, (x, ROW / 2))
    if reading:
        pen.say((x - RADIUS - 4, ROW / 2 + 4), reading, "end", SMALL)
