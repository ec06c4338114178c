"""The loop of an earth fault drawn: winding, line, load with its case, protective conductor and means of earthing."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.loop_words import loop_told
from quizzer.picture.parts import LONG, THICK, earth, resistor
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, Point
from quizzer.picture.telling import Untold

SYSTEMS = ("TN-S", "TN-C-S", "TT")
_L, _N, _E, _LOW = 0.0, 64.0, 114.0, 124.0  # levels: line, neutral, protective conductor, and where electrodes begin
_COIL, _LINK, _MET, _DEVICE, _LETTER = 5.5, 112.0, 154.0, 166.0, 212.0
_ZE, _R, _CASE, _ELEMENT = 48.0, 240.0, 314.0, 336.0
_EDGE = 124.0  # between supply and installation


def draw_earth_fault_loop(picture: Picture, pen: Pen) -> str:
    """The loop from the winding on and back to it; only those impedances are drawn that are told."""
    if picture.text("system") not in SYSTEMS:
        raise Untold(f"system is {picture.text('system')!r}", f"systems: {', '.join(SYSTEMS)}")
    _source(pen, picture)
    _line(pen, picture)
    _load(pen, picture)
    _protective(pen, picture)
    _EARTHED[picture.text("system")](pen, picture)
    pen.mark((_EDGE, -40.0), (_EDGE, _LOW + _deep(picture) + 20), style="dashed")
    pen.say((_EDGE - 6, -32.0), "supply", "end", SMALL)
    pen.say((_EDGE + 6, -32.0), "installation", size=SMALL)
    if picture.text("whole"):
        pen.say((_LETTER + 8, 36.0), f"round the loop: {picture.text('whole')}", "middle", SMALL)
    return loop_told(picture)


def _over(pen: Pen, start: Point, end: Point, at: float, label: str) -> None:
    """A straight wire to the right, over a resistor where it has a label."""
    if not label:
        pen.wire(start, end)
        return
    pen.wire(start, (at, start[1]))
    pen.wire(resistor(pen, (at, start[1]), ""), end)
    pen.say((at + LONG / 2, start[1] - THICK / 2 - 5), label, "middle", SMALL)


def _source(pen: Pen, picture: Picture) -> None:
    """A winding (IEC 60617 S00583: half circles in a row), its lower end earthed."""
    top = (_L + _N) / 2 - 4 * _COIL
    for turn in range(4):
        pen.arc((0.0, top + (2 * turn + 1) * _COIL), _COIL, -90, 90)
    pen.wire((0.0, top), (0.0, _L))
    pen.wire((0.0, top + 8 * _COIL), (0.0, _N))
    pen.dot((0.0, _N))
    if picture.text("U_0"):
        pen.say((-8.0, (_L + _N) / 2 + 4), picture.text("U_0"), "end", SMALL)
    pen.wire((0.0, _N), (0.0, _LOW))
    _electrode(pen, 0.0, picture.text("R_B"), _deep(picture))


def _deep(picture: Picture) -> float:
    """How far below its wire an electrode is drawn: all as deep as one below a resistor."""
    return LONG if picture.text("R_B") or picture.text("R_A") else 0.0


def _electrode(pen: Pen, x: float, label: str, deep: float) -> None:
    """An electrode in the ground, below a resistor where it has a label."""
    if not label:
        if deep:
            pen.wire((x, _LOW), (x, _LOW + deep))
        earth(pen, (x, _LOW + deep))
        return
    foot = resistor(pen, (x, _LOW), upright=True)
    pen.say((x + THICK / 2 + 5, _LOW + LONG / 2 + 4), label, size=SMALL)
    earth(pen, foot)


def _line(pen: Pen, picture: Picture) -> None:
    _over(pen, (0.0, _L), (_DEVICE, _L), _ZE, picture.text("Z_e"))
    device = picture.text("device")
    if device:
        _breaker(pen, (_DEVICE, _L), device)
    else:
        pen.wire((_DEVICE, _L), (_DEVICE + 28, _L))
    _over(pen, (_DEVICE + 28, _L), (_ELEMENT, _L), _R, picture.text("R_1"))
    pen.say((_LETTER, _L - 4), "L", size=SMALL)


def _breaker(pen: Pen, at: Point, words: str) -> None:
    """A fuse, a residual current device as a box on line and neutral, or a circuit-breaker: a contact with a cross.

    IEC 60617 S00362 and S00287.
    """
    x, y = at
    if "rcd" in words.casefold():
        pen.mark((x, y - 10), (x + 28, y - 10), (x + 28, _N + 10), (x, _N + 10), closed=True, style="line")
        pen.wire((x, y), (x + 28, y))
        pen.say((x + 14, _N + 24), words, "middle", SMALL)
        return
    if "fuse" in words.casefold():
        pen.mark((x, y - 5), (x + 28, y - 5), (x + 28, y + 5), (x, y + 5), closed=True, style="line")
        pen.wire((x, y), (x + 28, y))
    else:
        pen.mark((x - 4, y - 4), (x + 4, y + 4), style="line")
        pen.mark((x - 4, y + 4), (x + 4, y - 4), style="line")
        pen.mark((x + 28, y), (x + 5, y - 11), style="heavy")
    pen.say((x + 14, y + 17), words, "middle", SMALL)


def _load(pen: Pen, picture: Picture) -> None:
    """The load in its case, the line against the case where a fault is told, and the neutral back to the winding."""
    pen.box(_CASE, _L - 16, 52, _N - _L + 32)
    pen.wire((_ELEMENT, _L), (_ELEMENT, 15.0))
    pen.wire(resistor(pen, (_ELEMENT, 15.0), upright=True), (_ELEMENT, _N), (0.0, _N))
    pen.say((_LETTER, _N - 4), "N", size=SMALL)
    if picture.text("load"):
        pen.say((_CASE + 26, _L - 22), picture.text("load"), "middle", SMALL)
    if picture.text("fault") == "yes":
        pen.dot((_ELEMENT, _L))
        pen.wire((_ELEMENT, _L), (354.0, 12.0), (350.0, 16.0), (_CASE + 52, 26.0))
        pen.mark((_CASE + 52, 26.0), (_CASE + 44, 24.0), (_CASE + 48, 18.5), fill="ink", closed=True)


def _protective(pen: Pen, picture: Picture) -> None:
    """From the case back to the main earthing terminal."""
    _over(pen, (_MET, _E), (_ELEMENT, _E), _R, picture.text("R_2"))
    pen.wire((_ELEMENT, _E), (_ELEMENT, _N + 16))
    pen.dot((_MET, _E))
    pen.say((_MET + 5, _E - 4), "MET", size=SMALL)
    pen.say((_LETTER, _E - 4), "E", size=SMALL)


def _separate(pen: Pen, picture: Picture) -> None:
    del picture
    pen.wire((0.0, _E), (_MET, _E))
    pen.dot((0.0, _E))


def _combined(pen: Pen, picture: Picture) -> None:
    del picture
    pen.wire((_LINK, _N), (_LINK, _E), (_MET, _E))
    pen.dot((_LINK, _N))


def _through_ground(pen: Pen, picture: Picture) -> None:
    pen.wire((_MET, _E), (_MET, _LOW))
    _electrode(pen, _MET, picture.text("R_A"), _deep(picture))
    low = _LOW + _deep(picture) + 14
    pen.mark((14.0, low), (_MET - 14, low), style="dotted")
    pen.say(((14.0 + _MET) / 2, low + 12), "ground", "middle", SMALL)


_EARTHED = {"TN-S": _separate, "TN-C-S": _combined, "TT": _through_ground}
