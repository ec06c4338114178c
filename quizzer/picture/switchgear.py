"""Contacts and switchgear after IEC 60617, drawn along a conductor: to the right, or downwards where it is upright.

A contact is drawn at rest. Its fixed side comes first; what moves it stands below, or to the left of an upright one,
and moves it towards the conductor: so a make contact hangs below the line and a break contact lies above it.
"""

from __future__ import annotations

from typing import NamedTuple

from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, Point

SPAN = 36.0  # of conductor that any of these takes
_FIXED, _PIVOT, _BOX = 10.0, 26.0, (8.0, 28.0)
_TILT = 9.0
RING = 16.0  # of conductor more that a residual current device takes


class Along(NamedTuple):
    """Where a symbol begins on its conductor, and which way it goes."""

    x: float
    y: float
    upright: bool = False
    lead: float = 0.0  # of wire before and behind it

    def at(self, along: float, aside: float = 0.0) -> Point:
        """A point so far along, and so far aside: below the conductor, or to the left of an upright one."""
        return (self.x - aside, self.y + along) if self.upright else (self.x + along, self.y + aside)

    @property
    def start(self) -> Point:
        """Where the wire before it begins."""
        return self.at(-self.lead)

    @property
    def end(self) -> Point:
        """Where the wire behind it ends."""
        return self.at(SPAN + self.lead)

    @property
    def middle(self) -> Point:
        """The middle of the symbol."""
        return self.at(SPAN / 2)


def make(pen: Pen, on: Along) -> None:
    """A make contact (S00227): a lever that stands off its fixed side."""
    _sides(pen, on)
    _line(pen, on, (_PIVOT, 0.0), (_FIXED, _TILT))


def breaks(pen: Pen, on: Along) -> None:
    """A break contact (S00229): a lever that lies against a stub of its fixed side."""
    _sides(pen, on)
    _line(pen, on, (_FIXED, 0.0), (_FIXED, -7.0))
    _line(pen, on, (_PIVOT, 0.0), (7.0, -8.3))


def change_over(pen: Pen, on: Along) -> None:
    """A change-over contact (S00230): one lever between two fixed sides."""
    pen.wire(on.at(_PIVOT), on.end)
    _line(pen, on, (_PIVOT, 0.0), (_FIXED, 8.0))
    for aside in (-9.0, 9.0):
        pen.wire(on.at(-on.lead, aside), on.at(_FIXED, aside))


def push_make(pen: Pen, on: Along) -> None:
    """A push-button with a make contact (S00254)."""
    make(pen, on)
    _pushed(pen, on, 4.5)


def push_break(pen: Pen, on: Along) -> None:
    """A push-button with a break contact."""
    breaks(pen, on)
    _pushed(pen, on, -3.5)


def emergency(pen: Pen, on: Along) -> None:
    """A break contact pushed by a mushroom head (S00258)."""
    breaks(pen, on)
    _link(pen, on, -3.5, 13.0)
    corners = ((10.0, 13.0), (12.0, 17.5), (18.0, 19.5), (24.0, 17.5), (26.0, 13.0))
    pen.mark(*(on.at(*each) for each in corners), style="line", closed=True)


def overload(pen: Pen, on: Along) -> None:
    """A break contact moved by heat: the thermal step (S00120) linked to it."""
    breaks(pen, on)
    _link(pen, on, -3.5, 12.0)
    _line(pen, on, (10.0, 12.0), (14.5, 12.0), (14.5, 18.0), (21.5, 18.0), (21.5, 12.0), (26.0, 12.0))


def slow_make(pen: Pen, on: Along) -> None:
    """A make contact that is late to close when it is moved (S00243): the canopy is behind the movement."""
    make(pen, on)
    _late(pen, on, 4.5)


def slow_break(pen: Pen, on: Along) -> None:
    """A break contact that is late to open when it is moved (S00246)."""
    breaks(pen, on)
    _late(pen, on, -3.5)


def breaker(pen: Pen, on: Along) -> None:
    """A circuit-breaker (S00287): a make contact with a cross at its fixed side."""
    make(pen, on)
    cross(pen, on)


def disconnector(pen: Pen, on: Along) -> None:
    """A disconnector, or isolator (S00288): a make contact with a bar across its fixed side."""
    make(pen, on)
    _line(pen, on, (_FIXED, -4.5), (_FIXED, 4.5))


def switch_disconnector(pen: Pen, on: Along) -> None:
    """A switch-disconnector (S00290): bar and small circle at the fixed side."""
    disconnector(pen, on)
    pen.circle(on.at(_FIXED + 3.0), 2.6, "mark")


def main_contact(pen: Pen, on: Along) -> None:
    """The main make contact of a contactor (S00284): a half circle at its fixed side."""
    make(pen, on)
    half = ((_FIXED, 0.0), (_FIXED - 1.0, -3.0), (_FIXED - 3.5, -4.2), (_FIXED - 6.0, -3.0), (_FIXED - 7.0, 0.0))
    _line(pen, on, *reversed(half))


def residual(pen: Pen, on: Along) -> None:
    """A switch worked by residual current: a breaker's contact, linked to a ring round the conductor."""
    breaker(pen, on)
    pen.wire(on.end, on.at(SPAN + RING))
    ring = [(SPAN + 4 + dx, dy) for dx, dy in ((0, -7), (3, -5), (4, 0), (3, 5), (0, 7), (-3, 5), (-4, 0), (-3, -5))]
    pen.mark(*(on.at(*each) for each in ring), style="line", closed=True)
    _dashed(pen, on, (18.0, 4.5), (18.0, 13.0), (SPAN + 4, 13.0), (SPAN + 4, 7.0))


def residual_breaker(pen: Pen, on: Along) -> None:
    """A residual current device that breaks overcurrent too: behind its ring a box with the sign of overcurrent."""
    residual(pen, on)
    first, last = SPAN + RING, SPAN + RING + 24
    pen.body(*(on.at(*each) for each in ((first, -8.0), (last, -8.0), (last, 8.0), (first, 8.0))))
    (x, y) = on.at((first + last) / 2)
    pen.say((x, y + 4), "I >", "middle", SMALL)
    pen.wire(on.at(last), on.at(last + 8))


def fuse(pen: Pen, on: Along) -> None:
    """A fuse (S00362): a rectangle with the conductor through it."""
    _box(pen, on, 5.0)
    pen.wire(on.start, on.at(_BOX[0]))
    pen.wire(on.at(_BOX[1]), on.end)
    _line(pen, on, (_BOX[0], 0.0), (_BOX[1], 0.0))


def coil(pen: Pen, on: Along) -> None:
    """The coil of a relay or contactor (S00305): a rectangle joined at its long sides."""
    _upright_box(pen, on)


def slow_coil(pen: Pen, on: Along) -> None:
    """A coil that is slow to operate (S00312): at the end of its rectangle a smaller one with a cross."""
    _upright_box(pen, on)
    pen.mark(*(on.at(*each) for each in ((11, 10), (11, 18), (25, 18), (25, 10))), style="line")
    _line(pen, on, (11, 10), (25, 18))
    _line(pen, on, (11, 18), (25, 10))


def cross(pen: Pen, on: Along) -> None:
    """The cross of a circuit-breaker at the fixed side."""
    for way in (3.5, -3.5):
        _line(pen, on, (_FIXED - 3.5, -way), (_FIXED + 3.5, way))


def _sides(pen: Pen, on: Along) -> None:
    pen.wire(on.start, on.at(_FIXED))
    pen.wire(on.at(_PIVOT), on.end)


def _line(pen: Pen, on: Along, *places: Point) -> None:
    pen.mark(*(on.at(*each) for each in places), style="line")


def _dashed(pen: Pen, on: Along, *places: Point) -> None:
    pen.mark(*(on.at(*each) for each in places), style="dotted")


def _link(pen: Pen, on: Along, start: float, end: float) -> None:
    _dashed(pen, on, (18.0, start), (18.0, end))


def _pushed(pen: Pen, on: Along, start: float) -> None:
    _link(pen, on, start, 17.0)
    _line(pen, on, (12.0, 13.0), (12.0, 17.0), (24.0, 17.0), (24.0, 13.0))


def _late(pen: Pen, on: Along, start: float) -> None:
    """Two lines to a canopy that bulges away from the conductor."""
    half = ((16.5, start), (16.5, 15.0), (13.0, 13.6), (11.0, 10.0), (13.0, 13.6), (16.5, 15.0))
    other = [(SPAN - along, aside) for along, aside in reversed(half)]
    _line(pen, on, *half, *other)


def _box(pen: Pen, on: Along, half: float) -> None:
    first, last = _BOX
    pen.body(*(on.at(*each) for each in ((first, -half), (last, -half), (last, half), (first, half))))


def _upright_box(pen: Pen, on: Along) -> None:
    pen.body(*(on.at(*each) for each in ((11.0, -10.0), (25.0, -10.0), (25.0, 10.0), (11.0, 10.0))))
    pen.wire(on.start, on.at(11.0))
    pen.wire(on.at(25.0), on.end)
