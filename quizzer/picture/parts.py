"""Graphic symbols that several kinds draw, after IEC 60617: resistor, lamp, earth, source terminals, instrument.

Each is drawn between two points or about one, and its wires end on its outline.
"""

from __future__ import annotations

from quizzer.picture.pen import Pen
from quizzer.picture.shapes import Point

LONG, THICK = 34.0, 12.0  # of a resistor


def resistor(pen: Pen, start: Point, label: str = "", *, upright: bool = False) -> Point:
    """A resistor from a point to the right, or downwards where `upright`; what is its far end.

    IEC 60617 S00555: a rectangle about three times as long as wide. Its words stand above it, or to its right.
    """
    x, y = start
    if upright:
        pen.box(x - THICK / 2, y, THICK, LONG)
        if label:
            pen.say((x + THICK / 2 + 5, y + LONG / 2 + 4), label)
        return (x, y + LONG)
    pen.box(x, y - THICK / 2, LONG, THICK)
    if label:
        pen.say((x + LONG / 2, y - THICK / 2 - 6), label, "middle")
    return (x + LONG, y)


def slanted_resistor(pen: Pen, start: Point, end: Point) -> None:
    """A resistor whose ends are two points in any direction."""
    (x1, y1), (x2, y2) = start, end
    long = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    across, down = (y1 - y2) / long * THICK / 2, (x2 - x1) / long * THICK / 2
    pen.body((x1 + across, y1 + down), (x2 + across, y2 + down), (x2 - across, y2 - down), (x1 - across, y1 - down))


def coil(pen: Pen, start: Point, label: str = "") -> Point:
    """A coil from a point to the right; what is its far end (IEC 60617 S00583)."""
    x, y = start
    turn = LONG / 8
    for at in range(4):
        pen.arc((x + turn * (2 * at + 1), y), turn, -180, 0, role="body")
    pen.say((x + LONG / 2, y - THICK / 2 - 6), label, "middle")
    return (x + LONG, y)


def capacitor(pen: Pen, start: Point, label: str = "") -> Point:
    """A capacitor from a point to the right: two plates (IEC 60617 S00567); what is its far end."""
    x, y = start
    left, right = x + LONG / 2 - 3, x + LONG / 2 + 3
    pen.wire((x, y), (left, y))
    for plate in (left, right):
        pen.body((plate, y - 9), (plate, y + 9))
    pen.wire((right, y), (x + LONG, y))
    pen.say((x + LONG / 2, y - 16), label, "middle")
    return (x + LONG, y)


def lamp(pen: Pen, centre: Point, radius: float = 10.0) -> None:
    """A lamp: a circle with a diagonal cross (IEC 60617 S00965)."""
    pen.circle(centre, radius)
    (x, y), reach = centre, radius * 0.707
    pen.mark((x - reach, y - reach), (x + reach, y + reach))
    pen.mark((x - reach, y + reach), (x + reach, y - reach))


def instrument(pen: Pen, centre: Point, letter: str, radius: float = 13.0) -> None:
    """A measuring instrument: a circle with the letter of its unit (IEC 60617 S00910)."""
    pen.circle(centre, radius)
    pen.say((centre[0], centre[1] + 4.6), letter, "middle")


def earth(pen: Pen, at: Point) -> None:
    """Earth: three lines below each other, each shorter (IEC 60617 S00200)."""
    x, y = at
    pen.wire((x, y), (x, y + 8))
    for row, half in enumerate((9.0, 6.0, 3.0)):
        pen.mark((x - half, y + 8 + 4 * row), (x + half, y + 8 + 4 * row), style="line")
