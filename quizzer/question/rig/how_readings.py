"""How a reading with a fault comes about, in a sentence: which way is left, what it adds up to."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

from quizzer.circuit.model.faults import Fault, with_fault
from quizzer.circuit.model.network import resistances
from quizzer.circuit.model.wiring import CORE_NAMES, Circuit, Wire
from quizzer.circuit.testing.schedule import Test, readings

_SAME = 0.002  # ohms; a sum that is further off than this is not what was read
_LOW = 1000.0  # ohms that are nothing beside megohms

# Where the kind of fault says all.
_BY_KIND = {
    "lost-neutral": "The loads now hang between the lines: their star point lies at the mean of the three phasors, "
    "each weighted by 1/R, and each load gets the rest.",
    "single-phasing": "The open end hangs between two windings in series across the other two lines.",
    "borrowed-neutral": "The light's neutral does not come from this circuit, so the link at the board does not reach "
    "it.",
    "switch-in-neutral": "The line reaches the light past the switch, which lies in the neutral.",
    "strappers-transposed": "Follow the line from contact to contact: in this setting it now takes another way.",
    "intermediate-miswired": "Follow the line from contact to contact: in this setting it now takes another way.",
    "bridged-ring": "The bridge lies in parallel with the part of the ring that it spans.",
}


def how(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    """The sentence, or "" where there is none to say; `now` is the reading in SI."""
    by_kind = _BY_KIND.get(fault.kind, "")
    if by_kind and not (fault.kind == "bridged-ring" and now == inf):
        return by_kind
    if test.uses == "insulation":
        return _insulation(now)
    if test.uses != "continuity":
        return ""
    return next((words for words in (each(circuit, fault, test, now) for each in _CONTINUITY) if words), "")


def _insulation(now: float) -> str:
    if now < _LOW:
        return "Beside megohms that is a dead short."
    return "It lies in parallel with the sound insulation, and of two in parallel the far lower one decides."


def _exchanged(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    if not fault.kind.endswith("-reversed") or now < inf:
        return ""
    faulty = with_fault(circuit, fault)
    one, other = (CORE_NAMES[faulty.node(probe)[0]] for probe in test.probes)
    return f"At these terminals the probes are really on {one} and {other}, which nothing joins in this test."


def _broken(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    del circuit, test
    return "What is broken is the only way from one probe to the other." if now == inf and fault.size == inf else ""


def _in_series(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    (sound,) = readings(circuit, [test])
    if fault.kind != "loose-joint" or abs(sound + fault.size - now) > _SAME:
        return ""
    return f"The joint lies in series with all the rest: {sound:.2f} Ω + {fault.size:.2f} Ω."


def _on_a_spur(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    if fault.kind != "spur-off-spur":
        return ""
    own = [wire for wire in circuit.wires if wire.end in test.probes]
    cable = sum(wire.ohms for wire in own)
    return f"Its own cable, {cable:.3f} Ω, now comes on top of what the spur before it reads, {now - cable:.3f} Ω."


def _lamp(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    del circuit, test, now
    words = "The probes lie on the lamp itself, and with the switch off nothing else joins them."
    return words if fault.kind == "appliance-left-in" else ""


def _other_ring(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    if fault.kind != "rings-crossed":
        return ""
    if test.group == "ring end to end":
        return "The leg that is taken for the second end belongs to another ring."
    return _round_the_ring(circuit, fault, test, now) or "The leg of the next ring and this one are now one conductor."


def _round_the_ring(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    """The two ways round a cross-connected ring: from the socket by one end of the line and the other of the other."""
    if circuit.shape != "ring" or "cross-connected" not in test.group:
        return ""
    faulty = with_fault(circuit, fault)
    core, other = (probe[0] for probe in test.probes)
    starts, spur = _on_the_ring(circuit, test.probes)
    ends = [(f"{core}0", f"{other}x"), (f"{core}x", f"{other}0")]
    wires = [wire for wire in faulty.wires if wire.core in {core, other}]
    ways = [tuple(resistances(wires, list(zip(starts, pair, strict=True)))) for pair in ends]
    left = [way for way in ways if sum(way) < inf]
    total = 1 / sum(1 / sum(way) for way in left) + spur if left else inf
    if abs(total - now) > _SAME:
        return ""
    beside = f", and the spur {spur:.3f} Ω" if spur else ""
    if len(left) == 1:
        names = (CORE_NAMES[core], CORE_NAMES[other])
        parts = " + ".join(f"{name} {ohms:.3f} Ω" for name, ohms in zip(names, left[0], strict=True))
        return f"One way round is left: {parts} in series{beside}."
    both = " and ".join(f"{sum(way):.3f} Ω" for way in left)
    return f"Two ways round in parallel, {both}, the greater through the joint{beside}."


def _on_the_ring(circuit: Circuit, probes: tuple[str, str]) -> tuple[tuple[str, ...], float]:
    """The nodes of the ring that two terminals hang on, and the ohms of the spur between."""
    spurs = [wire for wire in circuit.wires if wire.end in probes and _is_spur(circuit, wire)]
    if not spurs:
        return probes, 0.0
    return tuple(wire.start for wire in spurs), sum(wire.ohms for wire in spurs)


def _is_spur(circuit: Circuit, wire: Wire) -> bool:
    number = wire.end[1:]
    return number.isdigit() and circuit.points[int(number) - 1].startswith("spur")


_CONTINUITY: tuple[Callable[[Circuit, Fault, Test, float], str], ...] = (
    _exchanged, _other_ring, _broken, _on_a_spur, _lamp, _in_series, _round_the_ring,
)  # fmt: skip
