"""An ohmmeter drawn between two cores at a point of a circuit."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.cables import Stop
from quizzer.picture.floors import Floor
from quizzer.picture.parts import instrument
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, Point
from quizzer.picture.telling import Untold, count

PAIRS = ("L E", "L N", "N E")
RADIUS, ABOVE = 13.0, 58.0  # of the meter; from a point to the meter above it


def meter(pen: Pen, centre: Point) -> None:
    """An ohmmeter."""
    instrument(pen, centre, "Ω", RADIUS)


def pair_of(text: str) -> tuple[str, str]:
    """Two cores as they are told. Raises Untold for anything else."""
    if text not in PAIRS:
        raise Untold(f"{text!r} is no pair of cores", f"pairs: {', '.join(PAIRS)}")
    one, other = text.split()
    return one, other


def meter_stop(picture: Picture, floor: Floor, default: int) -> int:
    """The number of the point where the meter is. Raises Untold for one that is not there, or has a spur there."""
    number = count(picture.text("at"), "at", 0, len(floor.stops) - 1) if picture.text("at") else default
    if number and any(cable.one == number and cable.upright for cable in floor.cables):
        raise Untold(f"the meter is at point {number}, as a cable is", "measure at another point")
    return number


def across(pen: Pen, floor: Floor, number: int, cores: tuple[str, str], reading: str) -> None:
    """A meter between two cores of a point, on the outer side of its row."""
    stop = floor.stops[number]
    centre = (stop.x, stop.y + stop.side * ABOVE)
    for core in cores:
        x, y = stop.terminal(core)
        away = (RADIUS**2 - (x - centre[0]) ** 2) ** 0.5
        pen.wire((x, y), (x, centre[1] - stop.side * away))
    meter(pen, centre)
    if reading:
        pen.say((centre[0] + RADIUS + 4, centre[1] + 4), reading, size=SMALL)


def wander(pen: Pen, start: Stop, end: Stop, words: str, reading: str) -> None:
    """A meter in a long lead from the protective terminal of a stop to that of another, above the cables."""
    (x1, y1), (x2, y2), high = start.terminal("E"), end.terminal("E"), start.y - ABOVE
    centre = (x1 + 24 + RADIUS, high)
    pen.wire((x1, y1), (x1, high), (centre[0] - RADIUS, high), style="thin")
    pen.wire((centre[0] + RADIUS, high), (x2, high), (x2, y2), style="thin")
    meter(pen, centre)
    if reading:
        pen.say((centre[0], high - RADIUS - 4), reading, "middle", SMALL)
    pen.say((centre[0] + RADIUS + 6, high - 5), words, size=SMALL)
