"""Symbols of plans after IEC 60617: switches, socket outlets and lights where they are fitted."""

from __future__ import annotations

from quizzer.picture.parts import lamp
from quizzer.picture.pen import Pen, around
from quizzer.picture.shapes import Point
from quizzer.picture.switchgear import Along

_KNOB, _ARM, _TICK = 5.0, 22.0, 6.0


def one_way(pen: Pen, on: Along) -> None:
    """A one-way switch: a small circle, an arm with one tick."""
    _arms(pen, on.middle, (-60.0,))


def two_pole(pen: Pen, on: Along) -> None:
    """A switch of two poles: an arm with two ticks."""
    _arms(pen, on.middle, (-60.0,), ticks=2)


def two_way(pen: Pen, on: Along) -> None:
    """A two-way switch: two arms opposite each other, a tick on each."""
    _arms(pen, on.middle, (-60.0, 120.0))


def intermediate(pen: Pen, on: Along) -> None:
    """An intermediate switch: four arms, a tick on each."""
    _arms(pen, on.middle, (-60.0, -120.0, 60.0, 120.0))


def pull(pen: Pen, on: Along) -> None:
    """A switch pulled by a cord: a one-way switch with an arrow away from it."""
    _arms(pen, on.middle, (-60.0,))
    x, y = on.middle
    pen.arrow((x, y + _KNOB), (x, y + 20))


def push(pen: Pen, on: Along) -> None:
    """A push-button on a plan: two circles, one in the other."""
    pen.circle(on.middle, 8.0, "mark")
    pen.circle(on.middle, 3.0, "mark")


def socket(pen: Pen, on: Along) -> None:
    """A socket outlet: a half circle on a stem."""
    _half(pen, on.middle)


def protected_socket(pen: Pen, on: Along) -> None:
    """A socket outlet with a protective contact: a bar across the crown."""
    _half(pen, on.middle)
    _bar(pen, on.middle)


def switched_socket(pen: Pen, on: Along) -> None:
    """A socket outlet with a protective contact and a switch: an arm with a tick from the crown."""
    _half(pen, on.middle)
    _bar(pen, on.middle)
    x, y = on.middle
    end = (x + 12.0, y - 16.0)
    pen.mark((x, y - 3), end, style="line")
    pen.mark(end, (end[0] + 4.5, end[1] + 4.0), style="line")


def light(pen: Pen, on: Along) -> None:
    """A lighting point: a diagonal cross."""
    (x, y), reach = on.middle, 9.0
    pen.mark((x - reach, y - reach), (x + reach, y + reach), style="line")
    pen.mark((x - reach, y + reach), (x + reach, y - reach), style="line")


def wall_light(pen: Pen, on: Along) -> None:
    """A lamp on a wall: circle and cross on a stem from a bar."""
    x, y = on.middle
    lamp(pen, (x, y - 5))
    pen.mark((x, y + 5), (x, y + 15), style="line")
    pen.mark((x - 9, y + 15), (x + 9, y + 15), style="line")


def tube(pen: Pen, on: Along) -> None:
    """A light with a fluorescent tube: a line with a bar at each end."""
    x, y = on.middle
    pen.mark((x - 20, y), (x + 20, y), style="line")
    for end in (x - 20, x + 20):
        pen.mark((end, y - 6), (end, y + 6), style="line")


def board(pen: Pen, on: Along) -> None:
    """A distribution board: a rectangle, its lower half filled below a diagonal."""
    x, y = on.middle
    pen.box(x - 18, y - 9, 36, 18)
    pen.mark((x - 18, y + 9), (x + 18, y - 9), (x + 18, y + 9), fill="ink", closed=True)


def _arms(pen: Pen, centre: Point, angles: tuple[float, ...], ticks: int = 1) -> None:
    pen.circle(centre, _KNOB)
    for angle in angles:
        pen.mark(around(centre, _KNOB, angle), around(centre, _ARM, angle), style="line")
        for back in range(ticks):
            foot = around(centre, _ARM - 5.0 * back, angle)
            pen.mark(foot, around(foot, _TICK, angle + 90), style="line")


def _half(pen: Pen, middle: Point) -> None:
    """A half circle open downwards, a stem on its crown."""
    x, y = middle
    pen.arc((x, y + 7), 10.0, 180, 360, style="line")
    pen.mark((x, y - 3), (x, y - 14), style="line")


def _bar(pen: Pen, middle: Point) -> None:
    x, y = middle
    pen.mark((x - 10, y - 3), (x + 10, y - 3), style="line")
