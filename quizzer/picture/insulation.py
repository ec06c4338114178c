"""An insulation test drawn: the conductors of a circuit, what is open or taken out, and the two leads of the tester."""

from __future__ import annotations

import re
from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture.cables import CORES, STYLES
from quizzer.picture.contacts import contact
from quizzer.picture.parts import lamp
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, wide_of
from quizzer.picture.telling import Untold, listed, named

_LEVELS = {"L": 0.0, "N": 46.0, "E": 92.0}
_LEFT, _FIRST, _PITCH = -84.0, 132.0, 40.0
_TESTER = (-14.0, 124.0, 62.0, 26.0)  # left, top, wide, high
_LEADS = (4.0, 30.0)
_LOAD = re.compile(r"(.+?), (in|out)(?:, (L N|L E|N E))?")


class _Load(NamedTuple):
    name: str
    there: bool
    cores: tuple[str, str]


def draw_insulation_test(picture: Picture, pen: Pen) -> str:
    """The conductors from left to right, what lies between them, and the tester below them."""
    one, other = picture.text("from").split(), picture.text("to").split()
    if set(one) & set(other) or not {*one, *other} <= set(CORES):
        raise Untold(
            f"its leads are on {listed(one)} and on {listed(other)}", "tell from and to different cores of L N E"
        )
    loads = [_load(text) for text in picture.texts("loads")]
    end = _FIRST
    for load in loads:
        end = _put(pen, load, end)
    _conductors(pen, picture, end)
    _tester(pen, picture, (one, other))
    return f"{_switches_told(picture)}{_loads_told(loads)}{_tester_told(picture, one, other)}"


def _load(text: str) -> _Load:
    found = _LOAD.fullmatch(text)
    if not found:
        raise Untold(f"{text!r} is no load", "write: lamp, in or: lamp, out or: SPD, in, L E")
    one, other = (found[3] or "L N").split()
    return _Load(found[1], found[2] == "in", (one, other))


def _put(pen: Pen, load: _Load, x: float) -> float:
    """A load between two conductors, or the two ends where it was; how far the drawing goes then."""
    top, low = (_LEVELS[core] for core in load.cores)
    high, words = top + 23.0, [load.name] if load.there else [load.name, "out"]
    wide = max(wide_of(word, SMALL) for word in words)
    if not load.there:
        pen.wire((x, top), (x, high - 8))
        pen.wire((x, low), (x, high + 8))
        pen.terminal((x, high - 5))
        pen.terminal((x, high + 5))
    elif load.name == "lamp":
        pen.wire((x, top), (x, high - 9))
        pen.wire((x, low), (x, high + 9))
        lamp(pen, (x, high), 9.0)
    else:
        pen.wire((x, top), (x, high - 11))
        pen.wire((x, low), (x, high + 11))
        pen.box(x - 6, high - 11, 12, 22)
    for core in load.cores:
        pen.dot((x, _LEVELS[core]))
    pen.lines((x + 13, high + 4 - (SMALL * 0.6 if len(words) > 1 else 0)), words, size=SMALL)
    return x + max(_PITCH, wide + 30)


def _conductors(pen: Pen, picture: Picture, end: float) -> None:
    """The three conductors, a contact wherever one is told to be in them."""
    main, local = picture.text("main"), picture.text("switch")
    for core in CORES:
        y, at = _LEVELS[core], _LEFT
        places = [(main, -62.0)] if main and core != "E" else []
        places += [(local, 72.0)] if local and core == "L" else []
        for position, x in places:
            pen.wire((at, y), (x, y), style=STYLES[core])
            at = contact(pen, (x, y), closed=position == "closed")
        pen.wire((at, y), (end - 12, y), style=STYLES[core])
        pen.say((_LEFT - 5, y + 4), core, "end")
    if main:
        pen.say((-48.0, -22.0), "main switch", "middle", SMALL)
    if local:
        pen.say((86.0, -22.0), "switch", "middle", SMALL)


def _tester(pen: Pen, picture: Picture, leads: tuple[list[str], list[str]]) -> None:
    """The tester's box and its two leads, with a dot on each conductor that a lead is on."""
    left, top, wide, high = _TESTER
    pen.box(left, top, wide, high)
    pen.say((left + wide / 2, top + 17), "MΩ", "middle")
    for x, cores in zip(_LEADS, leads, strict=True):
        low = top
        for core in reversed(CORES):
            if core in cores:
                pen.wire((x, low), (x, _LEVELS[core]))
                pen.dot((x, _LEVELS[core]))
                low = _LEVELS[core]
    told = [picture.text(name) for name in ("voltage", "reading") if picture.text(name)]
    pen.lines((left + wide + 8, top + (17 if len(told) == 1 else 9)), told, size=SMALL)


def _switches_told(picture: Picture) -> str:
    main, local = picture.text("main"), picture.text("switch")
    seen = [f"a main switch in L and N, {main}"] if main else []
    seen += [f"a switch in L, {local}"] if local else []
    return f"Conductors L, N and E{' with ' + listed(seen) if seen else ''}."


def _loads_told(loads: list[_Load]) -> str:
    seen = [f"{listed(load.cores)}: {named(load.name, 'load')}{'' if load.there else ', taken out'}" for load in loads]
    return f" Between {'; between '.join(seen)}." if seen else ""


def _tester_told(picture: Picture, one: list[str], other: list[str]) -> str:
    told = [named(picture.text(name), name) for name in ("voltage", "reading") if picture.text(name)]
    marked = f", marked {listed(told)}," if told else ""
    return f" A megohmmeter{marked} has one lead on {listed(one)} and one on {listed(other)}."
