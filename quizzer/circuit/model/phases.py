"""A small three-phase board: one single-phase load on each line, and a motor at the end of its cable."""

from __future__ import annotations

import cmath
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from math import pi

from quizzer.circuit.model.network import Branch, Pair, potentials
from quizzer.circuit.model.shapes import Day, Dice, circuit_on, day, pick, room_for
from quizzer.circuit.model.supply import VOLTS
from quizzer.circuit.model.wiring import Circuit, Device, Wire, ohms

LINES = ("L1", "L2", "L3")
MOTOR = ("U", "V", "W")
SOURCE = {line: VOLTS * cmath.exp(-2j * pi * at / 3) for at, line in enumerate(LINES)} | {"star": 0j}


def board(count: int, dice: Dice) -> Circuit:
    """Three unequal loads between line and neutral, and a motor in delta, standing still."""
    del count
    return board_on(day(dice), dice)


def board_on(today: Day, dice: Dice) -> Circuit:
    """Such a board on a day that is known."""
    # Three ranges that do not meet: the loads are never alike.
    loads = [Branch(line, "N", pick(low, low + 24, 4, dice)) for line, low in zip(LINES, (24, 56, 88), strict=True)]
    windings = [Branch(MOTOR[n], MOTOR[(n + 1) % 3], 60.0) for n in range(3)]
    wires, device = tuple(_wires(today.temperature, dice)), Device("C", 20)
    room = room_for(sum(wire.ohms for wire in wires if wire.id in {"motor-L1", "motor-E"}), device)
    named = ("three-phase", "three-phase board with a motor")
    built = circuit_on(today, named, ("the board", "the motor"), wires, device, room)
    return replace(built, loads=(*loads, *windings))


def _wires(temperature: int, dice: Dice) -> list[Wire]:
    metres, tail = pick(8, 30, 1, dice), 0.03
    where = "in the supply to the board"
    supply = [Wire(f"supply-{line}", line, f"source-{line}", line, tail, where, "supply") for line in LINES]
    neutral = Wire("supply-N", "N", "star", "N", tail, where, "supply")
    cable = ohms(metres, 4.0, temperature)
    run = "between the board and the motor"
    motor = [
        Wire(f"motor-{line}", line, line, end, cable, run, "motor") for line, end in zip(LINES, MOTOR, strict=True)
    ]
    earth = [
        Wire("motor-E", "E", "E", "ME", cable, run, "motor"),
        Wire("supply-E", "E", "star", "E", tail, "at the board", "supply"),
    ]
    return [*supply, neutral, *motor, *earth]


def volts(circuit: Circuit, start: str, end: str) -> float:
    """The voltage between two nodes with the loads on, in volts; 0 where a node floats free."""
    return _between(circuit, circuit.wires, circuit.loads, (start, end))


def incoming(circuit: Circuit, start: str, end: str) -> float:
    """The voltage at the incoming terminals with the main switch off, in volts; 0 to a conductor that is lost."""
    supply = tuple(wire for wire in circuit.wires if wire.role == "supply")
    return _between(circuit, supply, (), (start, end))


def _between(circuit: Circuit, wires: tuple[Wire, ...], loads: tuple[Branch, ...], pair: Pair) -> float:
    found = _fed(wires, loads)
    one, other = (circuit.node(end) for end in pair)
    return abs(found[one] - found[other]) if one in found and other in found else 0.0


@lru_cache(maxsize=64)
def _fed(wires: tuple[Wire, ...], loads: tuple[Branch, ...]) -> Mapping[str, complex]:
    """The potentials under the supply, solved once for as long as one pair after another is asked for."""
    fixed = {f"source-{line}": SOURCE[line] for line in LINES} | {"star": 0j}
    return potentials([*(wire.branch for wire in wires), *loads], fixed)


def sequence(circuit: Circuit) -> float:
    """1 where the lines reach the motor in the order L1, L2, L3; -1 where two are exchanged; 0 with a line missing."""
    wires = {wire.end: wire for wire in circuit.wires if wire.role == "motor" and wire.core in LINES}
    if len(wires) < len(MOTOR) or any(wire.ohms > 1000 for wire in circuit.wires if wire.core in LINES):
        return 0.0
    order = [LINES.index(wires[end].start) for end in MOTOR]
    return 1.0 if (order[1] - order[0]) % 3 == 1 else -1.0
