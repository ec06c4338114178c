"""A label or notice: its shape and its words."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen
from quizzer.picture.placing import chosen
from quizzer.picture.shapes import SIZE, wide_of
from quizzer.picture.telling import Untold

_HIGH, _WIDEST = 18.0, 300.0


def draw_label(picture: Picture, pen: Pen) -> str:
    """The sign to the left, the words to its right in a border; its words give the shape and then the words."""
    draw, words = chosen(dict(_SIGNS), picture.text("shape"), "shape")
    lines = picture.texts("lines")
    wide = max((wide_of(line) for line in lines), default=0.0)
    if wide > _WIDEST:
        raise Untold("a line is too long", "cut it into lines of about forty letters")
    high = max(_HIGH * len(lines), 44.0 if draw else 0.0) + 20
    left = 74.0 if draw else 12.0
    if draw:
        draw(pen, (36.0, high / 2))
    if lines:
        pen.box(0.0, 0.0, left + wide + 12, high)
        top = (high - _HIGH * len(lines)) / 2
        for at, line in enumerate(lines):
            pen.say((left + wide / 2, top + _HIGH * at + SIZE), line, "middle")
    if not lines and not draw:
        raise Untold("a rectangle without words", "tell it lines")
    said = f" Its words: {' / '.join(lines)}." if lines else ""
    return f"A notice: {words}.{said}"


def _triangle(pen: Pen, middle: tuple[float, float]) -> None:
    """A triangle with a flash in it: ISO 7010 W012."""
    x, y = middle
    pen.mark((x, y - 22), (x + 25, y + 20), (x - 25, y + 20), style="heavy", closed=True)
    flash = ((2, -10), (-6, 5), (0, 4), (-3, 11), (-5, 10), (-2, 17), (3, 11), (0, 11.5), (6, 0), (0, 1))
    pen.mark(*((x + dx, y + dy) for dx, dy in flash), fill="ink", closed=True)


def _exclamation(pen: Pen, middle: tuple[float, float]) -> None:
    """A triangle with an exclamation mark in it: ISO 7010 W001."""
    x, y = middle
    pen.mark((x, y - 22), (x + 25, y + 20), (x - 25, y + 20), style="heavy", closed=True)
    pen.mark((x - 2.5, y - 9), (x + 2.5, y - 9), (x + 1, y + 8), (x - 1, y + 8), fill="ink", closed=True)
    pen.circle((x, y + 13), 2.2, "mark", "ink")


def _barred(pen: Pen, middle: tuple[float, float]) -> None:
    """A circle with a bar across: no."""
    x, y = middle
    pen.circle(middle, 22.0, "mark", style="heavy")
    pen.mark((x - 15.5, y - 15.5), (x + 15.5, y + 15.5), style="heavy")


def _disc(pen: Pen, middle: tuple[float, float]) -> None:
    """A filled disc: do."""
    pen.circle(middle, 22.0, "mark", "ink")


_Sign = Callable[[Pen, tuple[float, float]], None] | None
_SIGNS: Mapping[str, tuple[_Sign, str]] = {
    "rectangle": (None, "a rectangle"),
    "triangle": (_triangle, "a triangle with a flash in it"),
    "exclamation": (_exclamation, "a triangle with an exclamation mark in it"),
    "barred disc": (_barred, "a circle with a bar slanting across it"),
    "filled disc": (_disc, "a filled disc"),
}
