"""Components after IEC 60617, drawn along a conductor to the right: capacitor, inductor, diode, cell, motor, earth."""

from __future__ import annotations

from quizzer.picture.parts import earth, instrument, lamp, resistor
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, Point
from quizzer.picture.switchgear import SPAN, Along

_MIDDLE = SPAN / 2


def lit(pen: Pen, on: Along) -> None:
    """A lamp (S00965)."""
    _leads(pen, on, 8.0, 28.0)
    lamp(pen, on.middle)


def resisting(pen: Pen, on: Along) -> None:
    """A resistor (S00555)."""
    pen.wire(on.start, on.at(1.0))
    pen.wire(resistor(pen, on.at(1.0)), on.end)


def varied(pen: Pen, on: Along) -> None:
    """A variable resistor (S00557): a slanting arrow through the rectangle."""
    resisting(pen, on)
    pen.arrow(on.at(6.0, 13.0), on.at(30.0, -14.0))


def capacitor(pen: Pen, on: Along) -> None:
    """A capacitor (S00567)."""
    _leads(pen, on, 15.5, 20.5)
    for along in (15.5, 20.5):
        pen.mark(on.at(along, -10.0), on.at(along, 10.0), style="line")


def inductor(pen: Pen, on: Along) -> None:
    """An inductor, or winding (S00583): half circles in a row."""
    _leads(pen, on, 2.0, 34.0)
    for at in range(4):
        pen.arc(on.at(6.0 + 8 * at), 4.0, 180, 360)


def diode(pen: Pen, on: Along) -> None:
    """A diode (S00641)."""
    _leads(pen, on, 11.0, 25.0)
    pen.mark(on.at(11.0, -8.0), on.at(11.0, 8.0), on.at(25.0), style="line", closed=True)
    pen.mark(on.at(25.0, -8.0), on.at(25.0, 8.0), style="line")


def light_diode(pen: Pen, on: Along) -> None:
    """A light-emitting diode (S00642): two arrows away from it."""
    diode(pen, on)
    for along in (15.0, 22.0):
        pen.arrow(on.at(along, -9.0), on.at(along + 8, -21.0), style="thin")


def cell(pen: Pen, on: Along) -> None:
    """A cell (S00898): the longer line is the positive pole."""
    _leads(pen, on, 15.5, 20.5)
    _plates(pen, on, 15.5)


def battery(pen: Pen, on: Along) -> None:
    """A battery: cells in a row, those between them dashed."""
    _leads(pen, on, 7.0, 29.0)
    _plates(pen, on, 7.0)
    _plates(pen, on, 24.0)
    pen.mark(on.at(12.0), on.at(24.0), style="dotted")


def voltmeter(pen: Pen, on: Along) -> None:
    """A voltmeter (S00913)."""
    _leads(pen, on, 5.0, 31.0)
    instrument(pen, on.middle, "V")


def ammeter(pen: Pen, on: Along) -> None:
    """An ammeter."""
    _leads(pen, on, 5.0, 31.0)
    instrument(pen, on.middle, "A")


def motor(pen: Pen, on: Along) -> None:
    """A three-phase motor (S00838): three conductors to a circle with its letter."""
    x, y = on.middle
    pen.circle((x, y + 2), 17.0)
    pen.say((x, y - 0.5), "M", "middle", SMALL)
    pen.say((x, y + 11.5), "3~", "middle", SMALL)
    for aside, top in ((-7.0, -13.5), (0.0, -15.0), (7.0, -13.5)):
        pen.wire((x + aside, y - 24), (x + aside, y + top))


def transformer(pen: Pen, on: Along) -> None:
    """A transformer with two windings (S00841): two circles that cut each other."""
    _leads(pen, on, -2.0, 38.0)
    for along in (9.0, 27.0):
        pen.circle(on.at(along), 11.0, "mark")


def earthed(pen: Pen, on: Along) -> None:
    """Earth (S00200)."""
    x, y = on.middle
    pen.wire((x, y - 14), (x, y - 4))
    earth(pen, (x, y - 4))


def protective_earth(pen: Pen, on: Along) -> None:
    """Protective earth (S00202): the sign of earth in a circle."""
    x, y = on.middle
    earth(pen, (x, y - 10))
    pen.circle((x, y), 16.0, "mark")
    pen.wire((x, y - 24), (x, y - 10))


def bell(pen: Pen, on: Along) -> None:
    """A bell (S00973): a half circle on its diameter, joined below."""
    x, y = on.middle
    pen.arc((x, y), 11.0, 180, 360, style="line")
    pen.mark((x - 11, y), (x + 11, y), style="line")
    for aside in (-5.0, 5.0):
        pen.wire((x + aside, y), (x + aside, y + 14))


def _leads(pen: Pen, on: Along, first: float, last: float) -> None:
    pen.wire(on.start, on.at(first))
    pen.wire(on.at(last), on.end)


def _plates(pen: Pen, on: Along, along: float) -> None:
    """A long line and a short one."""
    _line(pen, on.at(along, -10.0), on.at(along, 10.0))
    _line(pen, on.at(along + 5, -5.0), on.at(along + 5, 5.0))


def _line(pen: Pen, start: Point, end: Point) -> None:
    pen.mark(start, end, style="line")
