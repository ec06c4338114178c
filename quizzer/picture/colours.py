"""Cores of a cable by their colours, in letters and patterns as well, and joined to those of another cable."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, Fill, Style, wide_of
from quizzer.picture.telling import Untold, listed

_ROW, _LONG, _HIGH, _SHEATH = 34.0, 96.0, 10.0, 40.0
_STRIPES = 8
_LINES: Mapping[str, Style] = {"line": "line", "dashed": "dashed", "dotted": "dotted"}


class _Colour(NamedTuple):
    """How a colour is drawn: its pattern, and a colour of its own that is seen on white and on black ("" for none)."""

    pattern: str
    hue: str = ""


COLOURS: Mapping[str, _Colour] = {
    "brown": _Colour("slanting", "#9a6a3a"),
    "blue": _Colour("line", "#3a7bd5"),
    "green-yellow": _Colour("blocks", "#3c8f4e"),
    "black": _Colour("filled"),
    "grey": _Colour("dashed", "#808080"),
    "red": _Colour("upright", "#d64545"),
    "yellow": _Colour("dotted", "#9a8000"),
    "green": _Colour("two lines", "#3c8f4e"),
    "white": _Colour(""),
}


def draw_colours(picture: Picture, pen: Pen) -> str:
    """The cores below each other as they leave their sheath; its words name the colour of each letter."""
    cores = [_core(text) for text in picture.texts("cores")]
    others = [_core(f" : {text}")[1] for text in picture.texts("to")]
    if others and len(others) != len(cores):
        raise Untold(f"{len(cores)} cores joined to {len(others)}", "name as many in `to` as in `cores`")
    names = picture.texts("names") or ("", "")
    _sheath(pen, 0.0, len(cores), names[0])
    far = _SHEATH + 2 * _LONG + 26
    if others:
        _sheath(pen, far, len(cores), names[1])
    for at, (letter, colour) in enumerate(cores):
        y = _ROW * at
        _bar(pen, _SHEATH, y, colour)
        text = f"{letter}: {colour}" if letter else colour
        _say(pen, _SHEATH + _LONG / 2, y, text, above=bool(others))
        if others:
            _joint(pen, y)
            _bar(pen, far - _LONG, y, others[at])
            _say(pen, far - _LONG / 2, y, others[at], above=True)
    return _words(cores, others, names)


def _core(text: str) -> tuple[str, str]:
    letter, colon, colour = text.partition(":")
    letter, colour = (letter.strip(), colour.strip()) if colon else ("", text.strip())
    if colour not in COLOURS:
        raise Untold(f"a core is {colour!r}", f"colours: {', '.join(COLOURS)}")
    return letter, colour


def _sheath(pen: Pen, x: float, cores: int, name: str) -> None:
    pen.box(x, -10.0, _SHEATH, _ROW * (cores - 1) + 20.0)
    if name:
        pen.say((x + _SHEATH / 2, _ROW * (cores - 1) + 26.0), name, "middle", SMALL)


def _say(pen: Pen, x: float, y: float, text: str, *, above: bool) -> None:
    if wide_of(text) > _LONG and above:
        raise Untold(f"{text!r} is too long", "use a shorter letter or name")
    if above:
        pen.say((x, y - _HIGH / 2 - 4), text, "middle")
    else:
        pen.say((_SHEATH + _LONG + 8, y + 4.5), text)


def _joint(pen: Pen, y: float) -> None:
    left = _SHEATH + _LONG
    pen.wire((left, y), (left + 26, y))
    pen.dot((left + 13, y))


def _bar(pen: Pen, x: float, y: float, colour: str) -> None:
    """A core: its outline, and the pattern of its colour in it."""
    pattern, hue = COLOURS[colour]
    top, low = y - _HIGH / 2, y + _HIGH / 2
    fill: Fill = "ink" if pattern == "filled" else "none"
    pen.body((x, top), (x + _LONG, top), (x + _LONG, low), (x, low), fill=fill, colour=hue)
    step = _LONG / _STRIPES
    edges = [x + step * at for at in range(_STRIPES + 1)]
    if pattern in _LINES:
        pen.mark((x, y), (x + _LONG, y), style=_LINES[pattern])
    elif pattern == "two lines":
        for level in (y - 2, y + 2):
            pen.mark((x, level), (x + _LONG, level))
    elif pattern == "slanting":
        pen.mark(*((edge, top if at % 2 else low) for at, edge in enumerate(edges)))
    elif pattern == "upright":
        ends = [(top, low) if at % 2 else (low, top) for at in range(len(edges))]
        pen.mark(*((edge, level) for edge, pair in zip(edges, ends, strict=True) for level in pair))
    elif pattern == "blocks":
        for left in edges[:-1:2]:
            pen.mark((left, top), (left + step, top), (left + step, low), (left, low), fill="ink", closed=True)


def _words(cores: list[tuple[str, str]], others: list[str], names: tuple[str, ...]) -> str:
    seen = [f"{letter}, {colour}" if letter else colour for letter, colour in cores]
    first = f"the {names[0]}" if names[0] else "a cable"
    if not others:
        return f"The cores of {first}, from the top: {'; '.join(seen)}."
    second = f"the {names[1]}" if names[1] else "another cable"
    joints = listed([f"{one} to {other}" for one, other in zip(seen, others, strict=True)])
    return f"Cores of {first} joined to those of {second}, from the top: {joints}."
