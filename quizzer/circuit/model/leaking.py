"""The current to earth of a circuit in use with nothing wrong but what leaks."""

from __future__ import annotations

from math import hypot, inf

from quizzer.circuit.model.network import resistances
from quizzer.circuit.model.supply import VOLTS
from quizzer.circuit.model.wiring import Circuit

_ONE = 1000.0  # ohms under which conductors are one beside megohms


def standing_leakage(circuit: Circuit) -> float:
    """The standing leakage in mA: what cables and filters always pass, and U/R of insulation that has failed to earth.

    The first runs through capacitances, a quarter of a period ahead of the second: they add as the sides of a right
    angle.
    """
    if not circuit.leaks:
        return circuit.leakage_ma
    ends = ("L1", "E") if circuit.shape == "three-phase" else ("L0", "E0")
    positions = tuple(len(switch.ways) - 1 for switch in circuit.switches)
    (ohms,) = resistances(circuit.branches(positions, int(VOLTS)), [ends], _ONE)
    return hypot(circuit.leakage_ma, 1000 * VOLTS / ohms if 0 < ohms < inf else 0.0)
