"""A second fault behind a first: it shows only when that is mended and all is tested again."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.circuit.game.exercise import exercise
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.proving import fed_from_elsewhere
from quizzer.circuit.testing.reading import first_difference
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.tests import Test

_TRIES = 24  # suspects drawn before a first fault is left alone


def hidden_behind(
    circuit: Circuit, fault: Fault, suspects: Sequence[Fault], tests: tuple[Test, ...], dice: Dice
) -> Fault | None:
    """A second fault that no test tells while the first is in, and one that is due again does when it is mended.

    None where the first is not in the wiring, or none of those drawn will do; of starters, whose drawing tells more.
    """
    if fault.row.touches != "wiring" or circuit.shape in STARTERS:
        return None
    first = exercise(circuit, fault, (), tests)
    able = [tests[n] for n in first.allowed]
    due = {n for duty in (*first.first_duties, *first.last_duties) for n in duty.tests}
    alone = [first.true[n] for n in first.allowed]
    kinds: dict[str, list[Fault]] = {}
    for suspect in suspects:
        # One repair would mend both, as a new RCD does.
        at_once = suspect.kind == fault.kind or (suspect.row.fails and suspect.row.repair == fault.row.repair)
        if suspect.row.touches == "wiring" and not at_once:
            kinds.setdefault(suspect.kind, []).append(suspect)
    for _ in range(_TRIES):
        having = list(kinds.values())[int(dice() * len(kinds))]
        other = having[int(dice() * len(having))]
        both = with_fault(with_fault(circuit, fault), other)
        if fed_from_elsewhere(both) != first.fed or first_difference(able, alone, readings(both, able)) is not None:
            continue
        if due.intersection(exercise(circuit, other, (), tests).odd):
            return other
    return None
