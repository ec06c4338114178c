"""Graphic symbols in a row, each with a letter where there are several. Their words say the shape, not the name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture import components, place_symbols, switchgear
from quizzer.picture.pen import Pen
from quizzer.picture.switchgear import SPAN, Along
from quizzer.picture.telling import Untold

_APART, _BELOW, _IN_A_ROW = 82.0, 42.0, 4
_LEVER = "a conductor interrupted by a slanting lever"
_OFF = f"{_LEVER} that hangs below it"
_ON = f"{_LEVER} above it that lies against a short stub"


class Symbol(NamedTuple):
    """A graphic symbol: how it is drawn, and its shape in words."""

    draw: Callable[[Pen, Along], None]
    shape: str


SYMBOLS: Mapping[str, Symbol] = {
    "lamp": Symbol(components.lit, "a circle with a diagonal cross in it"),
    "resistor": Symbol(components.resisting, "a long rectangle in a conductor"),
    "variable resistor": Symbol(components.varied, "a long rectangle in a conductor, a slanting arrow across it"),
    "capacitor": Symbol(components.capacitor, "two equal short lines across a conductor, facing over a gap"),
    "inductor": Symbol(components.inductor, "a row of half circles in a conductor"),
    "diode": Symbol(components.diode, "a triangle in a conductor, its point on a short line across"),
    "light-emitting diode": Symbol(
        components.light_diode, "a triangle whose point is on a short line, two small arrows away from it"
    ),
    "cell": Symbol(components.cell, "a long line and a short line across a conductor, facing over a gap"),
    "battery": Symbol(components.battery, "a long and a short line, a dotted line, then a long and a short line again"),
    "voltmeter": Symbol(components.voltmeter, "a circle with a letter V in it"),
    "ammeter": Symbol(components.ammeter, "a circle with a letter A in it"),
    "three-phase motor": Symbol(
        components.motor, "three conductors to a circle with a letter M, a 3 and a wave sign in it"
    ),
    "transformer": Symbol(components.transformer, "two circles that cut each other, a conductor on each"),
    "earth": Symbol(components.earthed, "a line down to three lines across, each shorter than the one above"),
    "protective earth": Symbol(
        components.protective_earth, "a line down to three lines across, each shorter, all in a circle"
    ),
    "bell": Symbol(components.bell, "a half circle on its flat side, two lines down from it"),
    "fuse": Symbol(switchgear.fuse, "a rectangle with the conductor drawn straight through it"),
    "coil": Symbol(switchgear.coil, "a rectangle across the conductor, joined at its long sides"),
    "slow coil": Symbol(switchgear.slow_coil, "a rectangle across a conductor, at its end a smaller one with a cross"),
    "make contact": Symbol(switchgear.make, _OFF),
    "break contact": Symbol(switchgear.breaks, _ON),
    "change-over contact": Symbol(switchgear.change_over, "one slanting lever between two ends of conductors"),
    "push-button, make": Symbol(switchgear.push_make, f"{_OFF}, linked to a flat cap"),
    "push-button, break": Symbol(switchgear.push_break, f"{_ON}, linked to a flat cap"),
    "emergency stop": Symbol(switchgear.emergency, f"{_ON}, linked to a domed head"),
    "overload contact": Symbol(switchgear.overload, f"{_ON}, linked to a line with a square step in it"),
    "slow make contact": Symbol(switchgear.slow_make, f"{_OFF}, with two lines to an arc like an open parachute"),
    "circuit-breaker": Symbol(switchgear.breaker, f"{_OFF}, a small diagonal cross at its fixed side"),
    "isolator": Symbol(switchgear.disconnector, f"{_OFF}, a short bar across its fixed side"),
    "switch-disconnector": Symbol(
        switchgear.switch_disconnector, f"{_OFF}, a short bar and a small circle at its fixed side"
    ),
    "contactor contact": Symbol(switchgear.main_contact, f"{_OFF}, a half circle at its fixed side"),
    "residual current device": Symbol(
        switchgear.residual, f"{_OFF}, a cross at its fixed side, a dotted line from it to a ring round the conductor"
    ),
    "RCBO": Symbol(
        switchgear.residual_breaker,
        f"{_OFF}, a cross at its fixed side, linked to a ring round the conductor, "
        "and a box with I and a greater-than sign",
    ),
    "one-way switch": Symbol(place_symbols.one_way, "a small circle with one arm, a tick at its end"),
    "two-pole switch": Symbol(place_symbols.two_pole, "a small circle with one arm, two ticks near its end"),
    "two-way switch": Symbol(place_symbols.two_way, "a small circle with two arms opposite each other, a tick on each"),
    "intermediate switch": Symbol(place_symbols.intermediate, "a small circle with four arms, a tick on each"),
    "pull switch": Symbol(place_symbols.pull, "a small circle with one arm, a tick at its end, and an arrow down"),
    "push-button on a plan": Symbol(place_symbols.push, "a small circle inside a circle"),
    "socket outlet": Symbol(place_symbols.socket, "a half circle open downwards, a stem on its crown"),
    "socket outlet with earth": Symbol(
        place_symbols.protected_socket, "a half circle open downwards, a bar across its crown and a stem"
    ),
    "switched socket outlet": Symbol(
        place_symbols.switched_socket, "a half circle open downwards, a bar and a stem on its crown, and a ticked arm"
    ),
    "lighting point": Symbol(place_symbols.light, "a diagonal cross"),
    "wall light": Symbol(place_symbols.wall_light, "a circle with a diagonal cross, on a stem from a short bar"),
    "fluorescent light": Symbol(place_symbols.tube, "a line with a short bar across each end"),
    "distribution board": Symbol(place_symbols.board, "a rectangle cut by a diagonal, the part below it filled"),
}


def draw_symbols(picture: Picture, pen: Pen) -> str:
    """The symbols, four in a row at most; its words give each shape by its letter."""
    names = picture.texts("names")
    for name in names:
        if name not in SYMBOLS:
            raise Untold(f"there is no symbol {name!r}", f"names: {', '.join(SYMBOLS)}")
    for at, name in enumerate(names):
        x, y = _APART * (at % _IN_A_ROW), (_BELOW + 38.0) * (at // _IN_A_ROW)
        SYMBOLS[name].draw(pen, Along(x, y, lead=7.0))
        if len(names) > 1:
            pen.say((x + SPAN / 2, y + _BELOW), _letter(at), "middle")
    if len(names) == 1:
        return f"A graphic symbol: {SYMBOLS[names[0]].shape}."
    told = "; ".join(f"{_letter(at)}, {SYMBOLS[name].shape}" for at, name in enumerate(names))
    return f"Graphic symbols: {told}."


def _letter(at: int) -> str:
    return chr(ord("A") + at)
