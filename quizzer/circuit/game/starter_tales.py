"""What the user of a starter says: worked out from what it is seen to do, so that no tale contradicts its fault."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.circuit.model.control.motor import DARK, DELTA, HUMS, ROARS, STANDS, STAR, in_words, seen
from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.starter_tests import operations

# What their own words tell: that a new control fuse went, which nobody sees afterwards; a noise; a dip in the supply.
_OWN_WORDS = {"coil-short", "control-to-earth", "noisy-magnet", "two-wire-switch"}
_ROARS, _BY_ITSELF = "It roars when it changes over to delta.", "DANGER: it starts again as soon as stop is let go."
_WEAK, _DOWN = "It starts and stays weak.", "It starts, and after a few seconds it runs down again."
_HUMS_LATE = "It starts, and hums when it changes over."
_TRIPS = "the RCD trips when start is pressed"
_SAME = "It turns the same way with either button."


class _Start(NamedTuple):
    """A start: which way, and what is done to it, by words: held, let go, stopped."""

    way: str
    held: str
    gone: str
    stopped: str


_STARTS: dict[str, tuple[_Start, ...]] = {
    "start-stop": (_Start("", "S1 held", "S1 let go", "then S0 held"),),
    "forward-reverse": (
        _Start("forward", "S1 held", "S1 let go", "S0 held from forward"),
        _Start("in reverse", "S2 held", "S2 let go", "S0 held from reverse"),
    ),
    "star-delta": (_Start("", "S1 held", "S1 let go", "then S0 held"),),
}
Seen = dict[str, int]  # what is seen after each operation, by its words


def tale(circuit: Circuit, fault: Fault) -> str:
    """What the user says of a starter with the fault."""
    now, sound = (_operated(each) for each in (with_fault(circuit, fault), circuit))
    if fault.kind in _OWN_WORDS or now == sound:
        return fault.row.complaint
    if _motor(now, "nothing pressed") != STANDS:
        stops = any(_motor(now, start.stopped) == STANDS for start in _STARTS[circuit.shape])
        return _BY_ITSELF if stops else fault.row.complaint
    return _of_time(now) or _of_starts(circuit, now, sound)


def _operated(circuit: Circuit) -> Seen:
    return {words: seen(circuit, doing) for words, doing in operations(circuit.shape)}


def _motor(found: Seen, words: str) -> int:
    return found[words] % 10


def _of_time(now: Seen) -> str:
    """What goes wrong once the set time is over and not before; "" where nothing does."""
    late = now.get("after the set time")
    if late is None or _motor(now, "S1 let go") != STAR:
        return ""
    if late % 10 == DELTA:
        return ""
    return {STAR: _WEAK, HUMS: _HUMS_LATE, ROARS: _ROARS}.get(late % 10, _DOWN)


def _of_starts(circuit: Circuit, now: Seen, sound: Seen) -> str:
    """What each start button does wrong; where there are two, which of them, or both alike."""
    wrong = {
        start.way: _TRIPS if _motor(now, start.held) == DARK else _wrong(circuit.shape, now, sound, start)
        for start in _STARTS[circuit.shape]
    }
    told = {way: words for way, words in wrong.items() if words}
    words = next(iter(told.values()))
    if words == _SAME:
        return _SAME
    danger = "DANGER: " if words.startswith("the stop button") else ""
    if len(told) == len(wrong):
        return f"{danger}{words if danger else words[0].upper() + words[1:]}."
    (way,) = told
    return f"{danger}{way if danger else way.capitalize()} {words}; the other way all is well."


def _wrong(shape: str, now: Seen, sound: Seen, start: _Start) -> str:
    if _motor(now, start.stopped) != STANDS:
        return "the stop button does nothing"
    if "buzzes" in in_words(shape, now[start.held]):
        return "a contactor buzzes and does not pull in"
    if _motor(now, start.held) == HUMS:
        return "the motor hums and does not start"
    if _motor(now, start.held) == STANDS:
        still = now[start.held] == now["nothing pressed"]
        return "nothing happens when start is pressed" if still else "a contactor clicks, and the motor does not move"
    if _motor(now, start.gone) == STANDS:
        return "it runs only while the button is held"
    return "" if _motor(now, start.held) == _motor(sound, start.held) else _SAME
