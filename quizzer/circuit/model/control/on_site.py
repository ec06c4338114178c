"""A starter as it stands on site: any supply, a control circuit that is earthed or not, its motor and its settings."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

from quizzer.circuit.model.shapes import Dice, pick, room_for
from quizzer.circuit.model.supply import supply_of
from quizzer.circuit.model.wiring import Circuit, Machine

_UNEARTHED = 0.3  # of starters: control from a transformer of which neither pole is earthed
_PHASE = 1 / sqrt(3)  # of the current in the lines: that in the windings in delta, by a maker's catalogue of 2017


def on_site(circuit: Circuit, dice: Dice) -> Circuit:
    """The starter with its supply, its control supply and its machine drawn; all that was drawn before stays."""
    core = next(wire.ohms for wire in circuit.wires if wire.id == "motor E")
    supply = supply_of(dice(), room_for(2 * core, circuit.device))
    plate, seconds = pick(7.0, 11.0, 0.5, dice), pick(4.0, 9.0, 1.0, dice)
    dial = plate * (_PHASE if circuit.shape == "star-delta" else 1.0)
    machine = Machine(plate, dial, run_up=seconds, timer=seconds)
    return replace(circuit, supply=supply, machine=machine, control_earthed=dice() >= _UNEARTHED, beside_ma=())
