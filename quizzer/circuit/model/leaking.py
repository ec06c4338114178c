"""The current to earth of a circuit in use with nothing wrong but what leaks, and of all circuits behind its RCD."""

from __future__ import annotations

from math import hypot, inf

from quizzer.circuit.model.network import resistances
from quizzer.circuit.model.supply import VOLTS
from quizzer.circuit.model.wiring import Circuit

_ONE = 1000.0  # ohms under which conductors are one beside megohms


def standing_leakage(circuit: Circuit, unplugged: int = 0) -> float:
    """The standing leakage in mA: what cables and filters always pass, U/R of what has failed, appliances that leak.

    The first runs through capacitances, a quarter of a period ahead of the others: they add as the sides of a right
    angle. `unplugged` is the number of the point whose appliance is taken out, 0 for none.
    """
    loads = sum(ma for point, ma in circuit.leaking_loads if point != unplugged)
    return hypot(circuit.leakage_ma, through_insulation(circuit) + loads)


def shared_leakage(circuit: Circuit) -> tuple[float, float]:
    """What all circuits behind its RCD leak together in mA: in phase with the volts, and a quarter of a period ahead.

    Filters and cables of several circuits run ahead alike, so they simply add.
    """
    loads = sum(ma for _, ma in circuit.leaking_loads)
    beside = () if 0 in circuit.apart else circuit.beside_ma
    shared = sum(ma for number, ma in enumerate(beside, 1) if number not in circuit.apart)
    return through_insulation(circuit) + loads, circuit.leakage_ma + shared


def through_insulation(circuit: Circuit) -> float:
    """What insulation that has failed to earth passes, in mA at 230 V."""
    if not circuit.leaks:
        return 0.0
    lines = [(line, "E") for line in ("L1", "L2", "L3")]
    ends = lines if circuit.shape == "three-phase" else [("L0", "E0")]
    positions = tuple(len(switch.ways) - 1 for switch in circuit.switches)
    found = resistances(circuit.branches(positions, int(VOLTS)), ends, _ONE)
    return sum(1000 * VOLTS / ohms for ohms in found if 0 < ohms < inf)
