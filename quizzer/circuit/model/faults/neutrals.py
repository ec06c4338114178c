"""Neutrals of two circuits that touch, and spurs that read alike: suspected where a circuit is tested on site."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.edits import Joined, SpurLengthened
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.wiring import LIGHTS, Circuit

JOINED = FaultKind(
    "neutrals-joined",
    3,
    "The RCD trips when lights of another circuit are switched on.",
    "part the neutrals, each back to its own circuit",
)
LENGTHENED = FaultKind(
    "spur-lengthened",
    3,
    "Nothing seems wrong, but the insurer wants this circuit tested.",
    "renew the cable of the spur in one piece",
    sizes=Span(0.03, 0.2),  # ohms of some metres of line and as much of a joint
)
KINDS = (JOINED, LENGTHENED)
_TOUCH = 0.02  # ohms of two neutrals in one terminal


def places(circuit: Circuit) -> Iterator[Fault]:
    """In each box of a light with a neutral, and in the last spur of a ring."""
    if circuit.shape in LIGHTS:
        for k in range(1, len(circuit.points) + 1):
            where = f"switch {k}" if circuit.shape == "lighting" else circuit.points[0]
            say = "this circuit's neutral touches that of the circuit next to it"
            yield Fault(JOINED, Joined("Q1", f"N{k}"), _TOUCH, f"{say}, at {where}", f"{say} at one place")
    spurs = [k for k, name in enumerate(circuit.points, 1) if name.startswith("spur")]
    if len(spurs) > 1:
        say = f"the cable to spur socket {spurs[-1]} was lengthened in a box that nobody can reach"
        yield Fault(LENGTHENED, SpurLengthened(str(spurs[-1])), 0.03 + circuit.loose / 60, say)
