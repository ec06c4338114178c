"""What goes wrong in rings alone: figures of eight, legs of two rings exchanged, a spur fed from a spur."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.edits import LegsCrossed, RingBridged, StartsMoved
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.wiring import Circuit

_NOTHING = "Nothing seems wrong, but the insurer wants this circuit tested."

BRIDGED = FaultKind(
    "bridged-ring",
    3,
    _NOTHING,
    "take the bridge out",
    unless_open=True,
    reads="The bridge lies in parallel with the part of the ring that it spans.",
    sizes=Span(0.02, 0.1),  # ohms of three metres of cable to thirteen
)
CROSSED = FaultKind("rings-crossed", 3, _NOTHING, "put each leg back to its own ring", way="by another ring")
SPUR_OFF_SPUR = FaultKind("spur-off-spur", 3, _NOTHING, "feed each spur from the ring", way="along a spur")
KINDS = (BRIDGED, CROSSED, SPUR_OFF_SPUR)


def places(circuit: Circuit) -> Iterator[Fault]:
    """Between each two sockets that are no neighbours; each leg; the second spur."""
    if circuit.shape != "ring":
        return
    around = [k for k, name in enumerate(circuit.points, 1) if not name.startswith("spur")]
    for one, other in ((one, other) for one in around for other in around if other - one >= 2):
        say = f"the ring is bridged between sockets {one} and {other}"
        yield Fault(BRIDGED, RingBridged(one, other), 0.04, say, "the ring is bridged somewhere")
    for core, name in (("L", "line"), ("N", "neutral")):
        say = f"the second {name} leg is exchanged with a leg of another ring"
        yield Fault(CROSSED, LegsCrossed(core), 0.0, say)
    if len(around) < len(circuit.points):
        first, second = len(around) + 1, len(around) + 2
        moved = tuple((f"{core}{around[-2]}-{second}", f"{core}{first}") for core in "LNE")
        yield Fault(SPUR_OFF_SPUR, StartsMoved(moved), 0.0, f"spur socket {second} is fed from spur socket {first}")
