"""A supply whose line is dead: beside one whose neutral is lost, until every pair is read at the incoming terminals."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.fault import Fault, FaultKind
from quizzer.circuit.model.faults.further_site import NEUTRAL_LOST
from quizzer.circuit.model.faults.origin import CALL
from quizzer.circuit.model.origin_edits import LineDead
from quizzer.circuit.model.wiring import LIGHTS, SOCKETS, Circuit

# The customer cannot tell the two apart either.
LINE_DEAD = FaultKind("supply-line-dead", 2, NEUTRAL_LOST.complaint, CALL, touches="supply")
KINDS = (LINE_DEAD,)


def places(circuit: Circuit) -> Iterator[Fault]:
    """Before the main switch of a single-phase board."""
    if circuit.shape in {*SOCKETS, *LIGHTS}:
        say = "the line is dead before the main switch: the cut-out's fuse, or the supply before it"
        yield Fault(LINE_DEAD, LineDead(), 0.0, say)
