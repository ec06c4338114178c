"""What switches do, computed from the wiring: truth tables, and whether a light works."""

from __future__ import annotations

from itertools import product

from quizzer.circuit.model.network import Pair, resistances
from quizzer.circuit.model.wiring import Circuit

Positions = tuple[int, ...]
_JOINED = 1000.0  # ohms under which a lamp lights, or an RCD trips


def truth_table(circuit: Circuit, light: int = 1) -> dict[Positions, bool]:
    """For every setting of the switches, whether the light's line terminal is joined to the board's line."""
    settings = product(*(range(len(switch.ways)) for switch in circuit.switches))
    return {positions: _joined(circuit, positions, light) for positions in settings}


def _joined(circuit: Circuit, positions: Positions, light: int) -> bool:
    return resistances(circuit.branches(positions), [("L0", circuit.node(f"A{light}"))])[0] < _JOINED


def works(circuit: Circuit, positions: Positions, ends: Pair) -> float:
    """0 dark, 1 lit, 2 the RCD trips: the light's line and neutral followed back to the board."""
    branches = circuit.branches(positions)
    line, neutral = (circuit.node(end) for end in ends)
    found = resistances(branches, [("L0", line), ("N0", neutral), ("Q0", neutral), ("L0", neutral), ("N0", line)])
    fed, back, borrowed, fed_back, back_fed = (ohms < _JOINED for ohms in found)
    earth = resistances(branches, [("E0", "N0")])[0] < _JOINED
    if fed and (borrowed or earth):
        return 2.0
    return 1.0 if (fed and back) or (fed_back and back_fed) else 0.0
