"""Departures in the wiring, which instruments find: the faults of the circuit model, placed in a way."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import inf

from quizzer.circuit.installation.departures import Change, DepartureKind, on_way, ring_core
from quizzer.circuit.installation.ways import Way
from quizzer.circuit.model.edits import Exchanged, Joined, StartsMoved
from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.model.faults import breaks, exchanges, leaks, lights, three_phase
from quizzer.circuit.model.wiring import LIGHTS, Circuit

_SHORT = 0.05  # ohms of two conductors that touch
_REMAKE = "remake the joint with sound conductor, and test again"
_DRY = "replace the damaged or damp part, and test again"
_OWN = "put each conductor on its own terminal, and test again"


def _placed(family: Callable[[Circuit], object], kind: str, where: Callable[[Fault], bool] = lambda _: True) -> Change:
    """A fault of the circuit model at one of its places, by the throw."""

    def changed(way: Way, throw: float) -> Way | None:
        found = [each for each in family(way.circuit) if each.kind == kind and where(each)]  # type: ignore[attr-defined]
        return way._replace(circuit=with_fault(way.circuit, found[int(throw * len(found))])) if found else None

    return on_way(changed)


def _at_board(fault: Fault) -> bool:
    return "protective" in fault.say and "between the board and" in fault.say


def _of(serves: tuple[str, ...], change: Callable[[Circuit, float], Circuit]) -> Change:
    return on_way(lambda way, throw: way._replace(circuit=change(way.circuit, throw)) if way.serves in serves else None)


def _point(circuit: Circuit, throw: float) -> int:
    return 1 + int(throw * len(circuit.points))


def _touching_beyond_a_break(circuit: Circuit, throw: float) -> Circuit:
    """The protective conductor open to the last point, and neutral and earth touching there: the loop looks right."""
    k = len(circuit.points)
    wires = tuple(w._replace(ohms=inf) if w.core == "E" and w.end == f"E{k}" else w for w in circuit.wires)
    return Joined(f"N{k}", f"E{k}").made(replace(circuit, wires=wires), _SHORT + 0 * throw)


def _open_earth(way: Way, throw: float) -> Way | None:
    found = [
        each for family in (breaks, three_phase) for each in family.places(way.circuit) if each.kind == "open-earth"
    ]
    return way._replace(circuit=with_fault(way.circuit, found[int(throw * len(found))])) if found else None


def _outer_contact(way: Way, throw: float) -> Way | None:
    if way.circuit.shape not in LIGHTS:
        return None
    k = _point(way.circuit, throw)
    return way._replace(circuit=Exchanged(f"A{k}", f"B{k}").made(way.circuit, 0.0))


def _two_lines(circuit: Circuit, _throw: float) -> Circuit:
    return StartsMoved((("motor-L2", "L3"), ("motor-L3", "L2"))).made(circuit, 0.0)


KINDS: tuple[DepartureKind, ...] = (
    DepartureKind(
        "cpc-open",
        "the protective conductor is open",
        _REMAKE,
        ("C2",),
        "no fault current can flow beyond the break: a fault makes metal live",
        on_way(_open_earth),
    ),
    DepartureKind(
        "ring-line-open",
        "the ring's line is open",
        _REMAKE,
        ("C2", "FI"),
        "a break is a finding: two radials share a 32 A device",
        on_way(lambda way, throw: ring_core(way, throw, "open-line", "line")),
    ),
    DepartureKind(
        "ring-neutral-loose",
        "a joint in the ring's neutral is loose",
        _REMAKE,
        ("C2",),
        "a loose joint heats under load",
        on_way(lambda way, throw: ring_core(way, throw, "loose-joint", "neutral")),
    ),
    DepartureKind(
        "cpc-loose",
        "the joint of line or protective conductor is loose at the board",
        _REMAKE,
        ("C2",),
        "the device may not disconnect in time, and the joint gets worse",
        _placed(breaks.places, "loose-joint", _at_board),
        from_level=2,
    ),
    DepartureKind(
        "line-neutral",
        "line and neutral are exchanged at a point",
        _OWN,
        ("C2", "C1"),
        "a switch or fuse would be in the neutral; some give C1",
        _placed(exchanges.places, "line-neutral-reversed"),
    ),
    DepartureKind(
        "line-earth",
        "line and earth are exchanged at a point",
        _OWN,
        ("C1",),
        "metal is live as soon as it is switched on",
        _placed(exchanges.places, "line-earth-reversed"),
        from_level=2,
        only="new",
    ),
    DepartureKind(
        "neutral-earth-touch",
        "neutral and earth touch beyond the board",
        "part the conductors and make the insulation good, and test again",
        ("C2",),
        "load current flows in earthed metal, and the RCD trips with other loads",
        _placed(leaks.placed, "neutral-earth-short"),
    ),
    DepartureKind(
        "damp",
        "insulation between line and earth is low",
        _DRY,
        ("C2", "FI"),
        "under a megohm: damp or damage that goes on",
        _placed(leaks.placed, "low-line-earth"),
    ),
    DepartureKind(
        "low-line-neutral",
        "insulation between line and neutral is low",
        _DRY,
        ("C2", "FI"),
        "under a megohm with everything out: damage",
        _placed(leaks.placed, "low-line-neutral", lambda fault: "alarm" not in fault.say),
        from_level=2,
    ),
    DepartureKind(
        "touch-beyond-break",
        "the protective conductor is broken, and neutral and earth touch beyond",
        "find both: remake the joint, part the conductors, and test again from R1+R2 on",
        ("C2",),
        "the loop looks right, because the fault current goes back by the neutral",
        _of(("sockets", "outdoor"), _touching_beyond_a_break),
        from_level=3,
    ),
    DepartureKind(
        "switch-in-neutral",
        "a switch breaks the neutral",
        "move the switch into the line, and test again",
        ("C2",),
        "the lamp is live with its switch off",
        _placed(lights.places, "switch-in-neutral"),
    ),
    DepartureKind(
        "outer-contact",
        "line and neutral are exchanged at a lampholder",
        _OWN,
        ("C2", "C1"),
        "the outer contact is live and can be touched when a lamp is changed",
        on_way(_outer_contact),
        from_level=2,
    ),
    DepartureKind(
        "strappers",
        "common and strapper are exchanged at a two-way switch",
        "put common and strapper right, and test again",
        ("C3",),
        "it works from one end alone: a nuisance",
        _placed(lights.places, "strappers-transposed"),
        only="new",
    ),
    DepartureKind(
        "sequence",
        "two lines are exchanged at the motor",
        "exchange two lines at that point, and test again",
        ("C2",),
        "the machine turns the wrong way",
        _of(("motor",), _two_lines),
        only="new",
    ),
)
