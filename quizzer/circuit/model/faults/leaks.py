"""Insulation that has failed, and what was left connected."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.edits import Clamped, ClampedAll, Joined
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.wiring import LIGHTS, QUIET, Circuit

_SHORT = 0.05  # ohms of two conductors that touch
_TRIPS = "It trips, not always at once, and nobody can say why."
_GAVE_UP = "The last tester gave up at the insulation test."
_DAMAGED, _AT_250 = "replace the damaged or damp part", "disconnect it for the test, or test at 250 V"
# Insulation that fails its megohm and is no dead short, which a continuity tester would show; electronics likewise;
# from a 60 W lamp to a shower of 10 kW: common practice.
_FAILED, _ELECTRONICS = Span(0.03e6, 0.95e6), Span(0.1e6, 0.95e6)
# Loads that are left in, cold: a shower of 8.5 kW, a cooker's hob, a lamp or a small appliance; common practice.
_SHOWER, _HOB, _SMALL = 6.2, 24.0, 95.0

NEUTRAL_EARTH_SHORT = FaultKind(
    "neutral-earth-short", 2, _TRIPS, "part the conductors and make the insulation good", sizes=Span(0.01, 2.0)
)
LOW_LINE_EARTH = FaultKind(
    "low-line-earth", 1, _TRIPS, _DAMAGED, sizes=_FAILED, unit="MΩ", thing=True, fails="insulation"
)
LOW_LINE_NEUTRAL = FaultKind(
    "low-line-neutral",
    1,
    "Nothing seems wrong, but the insurer wants this circuit tested.",
    _DAMAGED,
    sizes=_FAILED,
    unit="MΩ",
    thing=True,
    fails="insulation",
)
APPLIANCE = FaultKind(
    "appliance-left-in",
    2,
    _GAVE_UP,
    "disconnect what was left in",
    touches="loads",
    sizes=Span(5.0, 900.0),
    unit="Ω",
    way="through a lamp",
)
ELECTRONICS = FaultKind("electronics-left-in", 2, _GAVE_UP, _AT_250, touches="loads", sizes=_ELECTRONICS, unit="MΩ")
SURGE = FaultKind("surge-left-in", 2, _GAVE_UP, _AT_250, touches="loads", sizes=_ELECTRONICS)
KINDS = (NEUTRAL_EARTH_SHORT, LOW_LINE_EARTH, LOW_LINE_NEUTRAL, APPLIANCE, ELECTRONICS, SURGE)
_LOW = "low insulation"


def places(circuit: Circuit) -> Iterator[Fault]:
    """Beyond the board, and at the last point."""
    if circuit.shape in STARTERS:
        return
    if circuit.shape == "three-phase":
        yield Fault(LOW_LINE_EARTH, Joined("U", "ME"), circuit.damp, f"{_LOW} between a line and earth", noun=_LOW)
        return
    touch = f"neutral and earth touch beyond the board, at {circuit.points[0]}"
    yield Fault(NEUTRAL_EARTH_SHORT, Joined("N1", "E1"), _SHORT, touch)
    between = f"{_LOW} between line and"
    yield Fault(LOW_LINE_EARTH, Joined("L1", "E1"), circuit.damp, f"{between} earth", noun=_LOW)
    yield Fault(LOW_LINE_NEUTRAL, Joined("L1", "N1"), circuit.damp, f"{between} neutral", noun=_LOW)
    yield from _left_in(circuit)


def placed(circuit: Circuit) -> Iterator[Fault]:
    """Insulation that has failed at each point, to be found by splitting the circuit; none where it is not split."""
    if circuit.shape not in {"ring", "radial", "cooker", "lighting"}:
        return
    for k, point in enumerate(circuit.points, 1):
        where = f"at {point.replace('light', 'switch')}"
        touch = "neutral and earth touch"
        yield Fault(NEUTRAL_EARTH_SHORT, Joined(f"N{k}", f"E{k}"), _SHORT, f"{touch} {where}", f"{touch} at one place")
        for row, other, name in ((LOW_LINE_EARTH, "E", "earth"), (LOW_LINE_NEUTRAL, "N", "neutral")):
            say = f"{_LOW} between line and {name}"
            at = Joined(f"L{k}", f"{other}{k}")
            yield Fault(row, at, circuit.damp, f"{say} {where}", f"{say} at one place", _LOW)


def _left_in(circuit: Circuit) -> Iterator[Fault]:
    k, lit = len(circuit.points), circuit.shape in LIGHTS
    ends = ("A1", "B1") if lit else (f"L{k}", f"N{k}")
    what = "is left in" if lit else "is left connected"
    for row, edit, noun, size in (
        (APPLIANCE, Joined(*ends), "a lamp" if lit else "an appliance", _load(circuit)),
        # What a tester makes of some 430 V at a milliampere or two.
        (
            ELECTRONICS,
            Clamped(*ends, _quiet(circuit)),
            f"an electronic {'lamp' if lit else 'appliance'}",
            0.2e6 + circuit.damp / 2,
        ),
    ):
        yield Fault(row, edit, size, f"{noun} {what}, between line and neutral", noun=noun)
    if circuit.shape in {"ring", "radial"}:
        # The pairs are named: a device between line and neutral alone would read like other electronics.
        say = "surge protection inside an outlet is left connected, between line, neutral and earth"
        yield Fault(SURGE, ClampedAll(f"L{k}", f"N{k}", f"E{k}"), 0.2e6 + circuit.damp / 2, say)


def _load(circuit: Circuit) -> float:
    """The ohms of what is left in."""
    if circuit.shape != "cooker":
        return _SMALL
    return _SHOWER if "shower" in circuit.title else _HOB


def _quiet(circuit: Circuit) -> float:
    """The ohms of electronics at 250 V: in every second circuit a resistor that discharges them, a megohm or two.

    Lower than a sound circuit, and far above what the same electronics read at 500 V: damp reads alike at both.
    """
    return QUIET if int(circuit.insulation / 10e6) % 2 else 1e6 + 2 * circuit.damp
