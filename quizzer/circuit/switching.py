"""Truth tables of switching, computed from the wiring."""

from __future__ import annotations

from itertools import product

from quizzer.circuit.network import resistances
from quizzer.circuit.wiring import Circuit

Positions = tuple[int, ...]


def truth_table(circuit: Circuit, light: int = 1) -> dict[Positions, bool]:
    """For every setting of the switches, whether the light's line terminal is joined to the board's line."""
    settings = product(*(range(len(switch.ways)) for switch in circuit.switches))
    return {positions: _joined(circuit, positions, light) for positions in settings}


def _joined(circuit: Circuit, positions: Positions, light: int) -> bool:
    return resistances(circuit.branches(positions), [("L0", circuit.node(f"A{light}"))])[0] < 1000
