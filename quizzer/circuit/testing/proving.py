"""What an indicator shows of a circuit that was switched off: dead, or fed by another one."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.circuit.model.network import Branch, resistances
from quizzer.circuit.model.wiring import CORE_NAMES, Circuit
from quizzer.circuit.testing.schedule import first

_JOINED = 1000.0  # ohms under which a conductor is one with another


class Fed(NamedTuple):
    """What feeds a circuit whose own way is off: another one its line, or its neutral once that is parted from the bar.

    Behind a reversed supply a single-pole device leaves live what is marked neutral; and where the neutral is lost, the
    loads of the other circuits bring it to the line.
    """

    line: bool
    neutral: bool
    supply_reversed: bool = False
    neutral_lost: bool = False


def fed_from_elsewhere(circuit: Circuit) -> Fed:
    """Which conductors of the circuit's points belong to a circuit beside it that stays on."""
    points = {core: _points(circuit, core) for core in "LN"}
    line, neutral = (_reached(circuit, core, points[core]) for core in "LN")
    at_neutral = circuit.supply_reversed or circuit.neutral_lost
    return Fed(line or at_neutral, neutral, circuit.supply_reversed, circuit.neutral_lost)


def _points(circuit: Circuit, core: str) -> list[str]:
    """The nodes of a core at every point: of lights those at the lamp as well."""
    lamp = {"L": "A", "N": "B"}[core]
    return [f"{letter}{k}" for k in range(1, len(circuit.points) + 1) for letter in (core, lamp)]


def _reached(circuit: Circuit, core: str, nodes: list[str]) -> bool:
    """Whether a conductor of this core from another circuit is joined to one of the nodes."""
    theirs = [
        wire.start for wire in circuit.wires if wire.role == "neighbour" and CORE_NAMES[wire.core] == CORE_NAMES[core]
    ]
    legs = [Branch(f"{core}0", f"{core}x", 0.0)] if circuit.shape == "ring" else []
    pairs = [(start, node) for start in theirs for node in nodes]
    branches = [*circuit.branches(first(circuit)), *legs]
    return any(ohms < _JOINED for ohms in resistances(branches, pairs))
