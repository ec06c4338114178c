"""What goes wrong at a three-phase board: the neutral lost, a line lost to the motor, two lines exchanged."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from quizzer.circuit.model.edits import AddedOhms, Parted, StartsMoved
from quizzer.circuit.model.fault import Fault, FaultKind
from quizzer.circuit.model.faults.breaks import OPEN_EARTH, REMAKE
from quizzer.circuit.model.phases import LINES
from quizzer.circuit.model.wiring import Circuit

LOST_NEUTRAL = FaultKind(
    "lost-neutral",
    1,
    "Some lights glare, others are dim.",
    "switch off, keep everybody off metalwork, call the network operator (105 in Great Britain)",
    touches="supply",
    reads="The loads now hang between the lines: their star point lies at the mean of the three phasors, each weighted "
    "by 1/R, and each load gets the rest.",
)
SINGLE_PHASING = FaultKind(
    "single-phasing",
    1,
    "The motor hums and does not start.",
    REMAKE,
    reads="The open end hangs between two windings in series across the other two lines.",
)
REVERSED = FaultKind("sequence-reversed", 1, "The motor runs the wrong way round.", "exchange two lines at the motor")
KINDS = (LOST_NEUTRAL, SINGLE_PHASING, REVERSED)


def places(circuit: Circuit) -> Iterator[Fault]:
    """In the supply, and in the cable to the motor."""
    if circuit.shape != "three-phase":
        return
    yield _lost(circuit)
    say = "the protective conductor is open between the board and the motor"
    yield Fault(OPEN_EARTH, AddedOhms("motor-E"), inf, say)
    for line in LINES:
        say = f"line {line} is open between the board and the motor"
        yield Fault(SINGLE_PHASING, AddedOhms(f"motor-{line}"), inf, say, "a line to the motor is open")
    moved = StartsMoved((("motor-L2", "L3"), ("motor-L3", "L2")))
    yield Fault(REVERSED, moved, 0.0, "two lines are exchanged at the motor")


def _lost(circuit: Circuit) -> Fault:
    """The neutral gone in the supply: with TN-C-S it is the protective conductor as well."""
    if circuit.supply.earthing == "TN-C-S":
        say = "the combined protective and neutral conductor is open in the supply to the board"
        return Fault(LOST_NEUTRAL, Parted(("supply-N", "supply-E")), inf, say)
    return Fault(LOST_NEUTRAL, AddedOhms("supply-N"), inf, "the neutral is lost in the supply to the board")
