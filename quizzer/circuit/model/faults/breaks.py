"""Conductors that are broken, and joints that have come loose."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from quizzer.circuit.model.edits import AddedOhms
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.wiring import CORE_NAMES, Circuit, Wire

REMAKE = "remake the joint with sound conductor"
_PART_IS_DEAD = "Part of it does not work, and the breaker has not tripped."

OPEN_LINE = FaultKind("open-line", 1, _PART_IS_DEAD, REMAKE)
OPEN_NEUTRAL = FaultKind("open-neutral", 1, _PART_IS_DEAD, REMAKE)
OPEN_EARTH = FaultKind("open-earth", 1, "Nothing seems wrong, but the insurer wants this circuit tested.", REMAKE)
LOOSE_JOINT = FaultKind(
    "loose-joint",
    2,
    "It smells warm now and then, and things hum.",
    REMAKE,
    thing=True,
    way="in series",
    unit="Ω",
    sizes=Span(0.2, 5.0),  # loose and not open: common practice
)
KINDS = (OPEN_LINE, OPEN_NEUTRAL, OPEN_EARTH, LOOSE_JOINT)
_OPEN = {"L": OPEN_LINE, "N": OPEN_NEUTRAL, "E": OPEN_EARTH}


def places(circuit: Circuit) -> Iterator[Fault]:
    """Each core of each cable broken, then each loose, in a socket or lighting circuit."""
    if circuit.shape == "three-phase":
        return
    cores = [wire for wire in circuit.wires if wire.role in {"cable", "strapper"}]
    yield from (_broken(wire) for wire in cores)
    yield from (_loose(circuit, wire) for wire in cores)


def _broken(wire: Wire) -> Fault:
    name = CORE_NAMES[wire.core]
    say = f"the {name} is open"
    return Fault(_OPEN[wire.core], AddedOhms(wire.id), inf, f"{say} {wire.where}", f"{say} at one place")


def _loose(circuit: Circuit, wire: Wire) -> Fault:
    noun = "a loose joint"
    say = f"{noun} in the {CORE_NAMES[wire.core]}"
    return Fault(LOOSE_JOINT, AddedOhms(wire.id), circuit.loose, f"{say} {wire.where}", f"{say} at one place", noun)
