"""A transformer: two windings with a core between them, and what stands beside each."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.parts import LONG, resistor
from quizzer.picture.pen import Pen
from quizzer.picture.telling import listed, named

_TURN, _TURNS, _APART = 9.0, 4, 17.0  # radius of a drawn turn; how many; from the core's middle to a winding
_LEAD, _LOAD = 40.0, 64.0


def draw_transformer(picture: Picture, pen: Pen) -> str:
    """The windings side by side, the first one on the left; with a load on the second where there is one."""
    primary, secondary, load = picture.texts("primary"), picture.texts("secondary"), picture.text("load")
    high = 2 * _TURN * _TURNS
    for side in (-1, 1):
        for turn in range(_TURNS):
            start, end = (-90.0, 90.0) if side < 0 else (270.0, 90.0)
            pen.arc((side * _APART, _TURN + 2 * _TURN * turn), _TURN, start, end, role="body")
    for x in (-3.0, 3.0):
        pen.mark((x, 2), (x, high - 2), style="heavy")
    right = _APART + (_LOAD if load else _LEAD)
    for y in (0.0, high):
        pen.wire((-_APART, y), (-_APART - _LEAD, y))
        pen.terminal((-_APART - _LEAD - 3, y))
        pen.wire((_APART, y), (right, y))
        if not load:
            pen.terminal((right + 3, y))
    low = high / 2 - 8 * (len(primary) - 1) + 4.5
    pen.lines((-_APART - _LEAD + 6, low), primary, "end")
    _beside(pen, secondary, load, high)
    said = "; on the right, ".join(listed([named(text, "value") for text in texts]) for texts in (primary, secondary))
    fed = f" The right winding feeds a load marked {named(load, 'load')}." if load else ""
    return f"Two windings with a core between them: on the left, {said}.{fed}"


def _beside(pen: Pen, texts: tuple[str, ...], load: str, high: float) -> None:
    """The words of the second winding: right of its terminals, or over the wire that leads to its load."""
    if not load:
        pen.lines((_APART + _LEAD - 6, high / 2 - 8 * (len(texts) - 1) + 4.5), texts)
        return
    x = _APART + _LOAD
    pen.wire((x, 0.0), (x, (high - LONG) / 2))
    pen.wire(resistor(pen, (x, (high - LONG) / 2), load, upright=True), (x, high))
    pen.lines((_APART, -8 - 16 * (len(texts) - 1)), texts)
