"""How a reading with a fault comes about, in a sentence: which way is left, what it adds up to."""

from __future__ import annotations

from math import inf
from typing import assert_never

from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.model.network import resistances
from quizzer.circuit.model.wiring import CORE_NAMES, Circuit, Wire
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.tests import Test

_SAME = 0.002  # ohms; a sum that is further off than this is not what was read
_LOW = 1000.0  # ohms that are nothing beside megohms


def how(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    """The sentence, or "" where there is none to say; `now` is the reading in SI."""
    row = fault.row
    if row.reads and not (row.unless_open and now == inf):
        return row.reads
    if test.uses == "insulation":
        return _insulation(now)
    if test.uses != "continuity":
        return ""
    return _by_its_way(circuit, fault, test, now) or _broken(fault, now) or _round_the_ring(circuit, fault, test, now)


def _by_its_way(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    match fault.row.way:
        case "":
            return ""
        case "exchanged":
            return _exchanged(circuit, fault, test, now)
        case "in series":
            return _in_series(circuit, fault, test, now)
        case "along a spur":
            return _on_a_spur(circuit, test, now)
        case "through a lamp":
            return "The probes lie on the lamp itself, and with the switch off nothing else joins them."
        case "by another ring":
            return _other_ring(circuit, fault, test, now)
        case way:
            assert_never(way)


def _insulation(now: float) -> str:
    if now < _LOW:
        return "Beside megohms that is a dead short."
    return "It lies in parallel with the sound insulation, and of two in parallel the far lower one decides."


def _exchanged(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    if now < inf:
        return ""
    faulty = with_fault(circuit, fault)
    one, other = (CORE_NAMES[faulty.node(probe)[0]] for probe in test.probes)
    return f"At these terminals the probes are really on {one} and {other}, which nothing joins in this test."


def _broken(fault: Fault, now: float) -> str:
    return "What is broken is the only way from one probe to the other." if now == inf and fault.size == inf else ""


def _in_series(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
    (sound,) = readings(circuit, [test])
    if abs(sound + fault.size - now) > _SAME:
        return ""
    return f"The joint lies in series with all the rest: {sound:.2f} Ω + {fault.size:.2f} Ω."


def _on_a_spur(circuit: Circuit, test: Test, now: float) -> str:
    own = [wire for wire in circuit.wires if wire.end in test.probes]
    cable = sum(wire.ohms for wire in own)
    return f"Its own cable, {cable:.3f} Ω, now comes on top of what the spur before it reads, {now - cable:.3f} Ω."


def _other_ring(circuit: Circuit, fault: Fault, test: Test, now: float) -> str:
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
