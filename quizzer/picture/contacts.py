"""Contacts drawn: a lever on a pivot, open or closed (IEC 60617 S00227, make contact)."""

from __future__ import annotations

from quizzer.picture.pen import Pen
from quizzer.picture.shapes import Point

LONG = 26.0
_RISE = 14.0


def contact(pen: Pen, at: Point, *, closed: bool) -> float:
    """A contact to the right of a point, its pivot there; where it ends. Open, its lever stands up."""
    x, y = at
    pen.mark((x, y), (x + LONG, y) if closed else (x + LONG - 4, y - _RISE), style="line")
    pen.terminal((x, y))
    pen.terminal((x + LONG, y))
    return x + LONG
