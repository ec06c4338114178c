"""Tests of a three-phase board on site: insulation between every pair, each line's loop, prospective current."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import combinations
from math import sqrt
from typing import NamedTuple

from quizzer.circuit.model.fault import Uses
from quizzer.circuit.model.network import Branch, Pair, resistances
from quizzer.circuit.model.phases import LINES, MOTOR
from quizzer.circuit.model.supply import VOLTS
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.tests import SCHEDULED

TAILS = 0.06  # ohms of two conductors in the supply to the board, which belong to the loops at its origin
_SUPPLY = tuple(f"supply-{core}" for core in (*LINES, "N"))
_PAIRS = (*((LINES[n], LINES[(n + 1) % 3]) for n in range(3)), *((line, other) for other in "NE" for line in LINES))


class Row(NamedTuple):
    """A test: id, group, place, instrument and probes, what is joined, and what is taken out."""

    id: str
    group: str
    place: str
    uses: Uses
    probes: Pair
    joins: tuple[Branch, ...] = ()
    parted: tuple[str, ...] = ()


def motor_connected(circuit: Circuit) -> Iterator[Row]:
    """Each line to earth at the motor, the main switch off: its windings join the lines, and all they leak to earth."""
    windings = tuple(Branch(MOTOR[0], end, 0.0) for end in MOTOR[1:])
    group = f"insulation at {SCHEDULED} V, line to earth, motor connected"
    for n, line in enumerate(LINES):
        joins = (*_sound(circuit, "ME"), *windings)
        yield Row(f"ir-{n}", group, line, "insulation", (line, "ME"), joins, _SUPPLY)


def insulation(circuit: Circuit) -> Iterator[Row]:
    """Every two of the five conductors, the main switch off and the motor disconnected."""
    sound = _sound(circuit, "E")
    group = "insulation at 500 V, every pair, motor disconnected"
    for one, other in (*_PAIRS, ("N", "E")):
        yield Row(f"ir-pair-{one}-{other}", group, f"{one} to {other}", "insulation", (one, other), sound, _SUPPLY)


def _sound(circuit: Circuit, earth: str) -> tuple[Branch, ...]:
    """Sound insulation between every two of the five conductors."""
    return tuple(Branch(*pair, circuit.insulation) for pair in combinations((*LINES, "N", earth), 2))


def loops(circuit: Circuit) -> Iterator[Row]:
    """The loop to earth of each line at the board, and of the second and third at the motor."""
    for line in LINES:
        place = f"the board on {line}"
        yield Row(f"loop-{line}", "earth fault loop", place, "loop", (line, "E"), (_behind(circuit, (line, "E")),))
    for line, end in zip(LINES[1:], MOTOR[1:], strict=True):
        place = f"the motor on {line}"
        yield Row(f"loop-{end}", "earth fault loop", place, "loop", (end, "ME"), (_behind(circuit, (line, "E")),))


def currents() -> Iterator[Row]:
    """The prospective current at the board of each line to neutral, and of each two lines."""
    for one, other in _PAIRS[:6]:
        group = "prospective current at the board"
        yield Row(f"pfc-{one}-{other}", group, f"{one} to {other}", "current", (one, other))


def _behind(circuit: Circuit, pair: Pair) -> Branch:
    """What lies before the board in the loop of two conductors: line and neutral have half of their loop each."""
    one, other = pair
    if other in LINES:
        return Branch(f"source-{one}", f"source-{other}", circuit.supply.z_n - TAILS)
    return Branch(f"source-{one}", "star", (circuit.supply.z_e if other == "E" else circuit.supply.z_n) - TAILS)


def _current(circuit: Circuit, name: str) -> float:
    """The amperes of the pair in the test's id; 0 where nothing joins the two."""
    _, one, other = name.split("-")
    (ohms,) = resistances([*circuit.wires, _behind(circuit, (one, other))], [(one, other)])
    return VOLTS * (sqrt(3) if other in LINES else 1) / ohms


BY_ID: dict[str, Callable[[Circuit, str], float]] = {"current": _current}


def three_phase_current(amperes: dict[str, float]) -> float:
    """The current of a fault of all three lines, from readings by the ids of their tests.

    Twice the highest of a line to neutral is the trade's rule, and too little where the neutral has more ohms than the
    line; two lines give 0.866 of it.
    """
    to_neutral = [value for name, value in amperes.items() if name.endswith("-N")]
    of_lines = [value for name, value in amperes.items() if not name.endswith("-N")]
    return max(2 * max(to_neutral, default=0.0), max(of_lines, default=0.0) / (sqrt(3) / 2))
