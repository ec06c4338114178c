"""What goes wrong at a three-phase board and is told by tests between every pair, and by each line's loop."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.edits import AddedOhms, Joined
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.faults.leaks import LOW_LINE_EARTH, LOW_LINE_NEUTRAL, NEUTRAL_EARTH_SHORT
from quizzer.circuit.model.phases import LINES, MOTOR
from quizzer.circuit.model.wiring import Circuit

LOW_LINE_LINE = FaultKind(
    "low-line-line",
    2,
    "Nothing seems wrong, but the insurer wants this circuit tested.",
    "replace the damaged part",
    sizes=Span(0.03e6, 0.95e6),
    thing=True,
)
LOOSE_MAIN = FaultKind(
    "loose-at-main-switch",
    2,
    "It smells warm now and then, and things hum.",
    "remake the joint at the main switch",
    sizes=Span(0.2, 5.0),  # loose and not open: common practice
    thing=True,
)
KINDS = (LOW_LINE_LINE, LOOSE_MAIN)
_LOW, _SHORT = "low insulation", 0.05


def placed(circuit: Circuit) -> Iterator[Fault]:
    """Insulation to earth of each line of the motor's cable, which the motor joins while it is connected."""
    if circuit.shape == "three-phase":
        for line, end in zip(LINES, MOTOR, strict=True):
            say = f"{_LOW} between {line} and earth in the cable to the motor"
            group = f"{_LOW} between a line and earth"
            yield Fault(LOW_LINE_EARTH, Joined(end, "ME"), circuit.damp, say, group, _LOW)


def places(circuit: Circuit) -> Iterator[Fault]:
    """Insulation of every other pair, and a loose joint in each incoming conductor."""
    if circuit.shape != "three-phase":
        return
    for n in range(3):
        say = f"{_LOW} between {LINES[n]} and {LINES[(n + 1) % 3]} in the cable to the motor"
        at = Joined(MOTOR[n], MOTOR[(n + 1) % 3])
        yield Fault(LOW_LINE_LINE, at, circuit.damp, say, f"{_LOW} between two lines", _LOW)
    for line in LINES:
        say = f"{_LOW} between {line} and neutral in the circuit of its load"
        group = f"{_LOW} between a line and neutral"
        yield Fault(LOW_LINE_NEUTRAL, Joined(line, "N"), circuit.damp, say, group, _LOW)
    touch = "neutral and earth touch in the circuit of a load"
    yield Fault(NEUTRAL_EARTH_SHORT, Joined("N", "E"), _SHORT, touch)
    names = {**{line: line for line in LINES}, "N": "the neutral", "E": "the main earthing conductor"}
    for core, name in names.items():
        if core == "E" and circuit.supply.earthing == "TT":  # some ohms more say nothing beside an electrode
            continue
        say = f"a loose joint in {name} at the main switch"
        at_wire = AddedOhms(f"supply-{core}")
        group, noun = "a loose joint at the main switch", "a loose joint"
        yield Fault(LOOSE_MAIN, at_wire, circuit.loose, say, group, noun)
