"""What the customer says: the complaint of a kind of fault, as its place and the supply make it."""

from __future__ import annotations

from quizzer.circuit.game.starter_tales import tale
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.edits import AddedOhms
from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.model.network import Branch, resistances
from quizzer.circuit.model.wiring import LIGHTS, Circuit, Wire
from quizzer.circuit.testing.schedule import first

NOTHING = "Nothing seems wrong, but the insurer wants this circuit tested."
_NONE_WORKS = "None of it works, and the breaker has not tripped."
_FLICKERS = "A light flickers now and then."
_SOME_SETTINGS = "A light stays off in some settings of the switches."
_WET_DAY = "It tripped once, on a wet day, and has held since."
_JOINED = 1000.0


def complaint(circuit: Circuit, fault: Fault) -> str:
    """The complaint, true of the fault where it is: a current that flows, a point that is dead, a device that trips."""
    if circuit.shape in STARTERS:
        return tale(circuit, fault)
    if fault.kind in {"open-line", "open-neutral"}:
        return _of_an_open_wire(circuit, fault)
    if fault.kind == "loose-joint":
        return _of_a_loose_joint(circuit, fault)
    if fault.kind == "low-line-earth":
        return _WET_DAY if circuit.has_rcd else NOTHING
    return NOTHING if _unnoticed(circuit, fault) else fault.row.complaint


def _unnoticed(circuit: Circuit, fault: Fault) -> bool:
    """Whether nobody notices: a conductor without current, or a current to earth where no RCD is."""
    if fault.kind == "loose-at-main-switch":
        return isinstance(fault.at, AddedOhms) and fault.at.wire == "supply-E"
    return fault.kind == "neutral-earth-short" and not circuit.has_rcd


def _of_an_open_wire(circuit: Circuit, fault: Fault) -> str:
    """A ring is fed from its other end; beyond a break of anything else nothing works."""
    wire = _wire(circuit, fault)
    if wire.role == "strapper":
        return _SOME_SETTINGS
    dead = _dead_points(with_fault(circuit, fault), wire.core)
    if not dead:
        return NOTHING
    return _NONE_WORKS if len(dead) == len(circuit.points) else fault.row.complaint


def _dead_points(faulty: Circuit, core: str) -> list[int]:
    """The points that a conductor no longer reaches, whatever the switches do."""
    joined = [Branch(f"{core}0", f"{core}x", 0.0)] if faulty.shape == "ring" else []
    count = len(faulty.points)
    node = {"L": "A", "N": "B"}[core] if faulty.shape in LIGHTS else core
    every = [first(faulty), tuple(1 for _ in faulty.switches)]
    pairs = [(f"{core}0", f"{node}{k}") for k in range(1, count + 1)]
    found = [resistances([*faulty.branches(at), *joined], pairs) for at in every]
    return [k for k in range(count) if all(read[k] > _JOINED for read in found)]


def _of_a_loose_joint(circuit: Circuit, fault: Fault) -> str:
    """Only a current warms a joint, and a protective conductor carries none; lamps draw too little to smell of."""
    wire = _wire(circuit, fault)
    if wire.core == "E":
        return NOTHING
    return _FLICKERS if circuit.shape in LIGHTS else fault.row.complaint


def _wire(circuit: Circuit, fault: Fault) -> Wire:
    if not isinstance(fault.at, AddedOhms):
        message = f"{fault.kind} changes no wire"
        raise TypeError(message)
    return next(wire for wire in circuit.wires if wire.id == fault.at.wire)
