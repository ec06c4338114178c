"""A second fault behind a first: it shows only when that is mended and all is tested again."""

from __future__ import annotations

import re
from collections.abc import Sequence

from quizzer.circuit.game.advice import duty_tests
from quizzer.circuit.game.exercise import exercise
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.proving import fed_from_elsewhere
from quizzer.circuit.testing.reading import first_difference
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.sizing import by_state
from quizzer.circuit.testing.tests import Test

_DEVICE = re.compile(r"\b[A-Z]{1,2}\d\b")  # as it is called on the drawing of a starter
_TRIES = 24  # suspects drawn before a first fault is left alone


def hidden_behind(
    circuit: Circuit, fault: Fault, suspects: Sequence[Fault], tests: tuple[Test, ...], dice: Dice
) -> Fault | None:
    """A second fault that no test tells while the first is in, and one that is due again does when it is mended.

    None where the first is not in the wiring, or none of those drawn will do; of starters that are not known on site.
    """
    inside = {"wiring", "machine"} if circuit.machine else {"wiring"}  # what is proved again when it was mended
    if fault.row.touches not in inside or (circuit.shape in STARTERS and circuit.machine is None):
        return None
    first = exercise(circuit, fault, (), tests)
    able = [tests[n] for n in first.allowed]
    due = duty_tests(first)
    alone = [first.true[n] for n in first.allowed]
    kinds: dict[str, list[Fault]] = {}
    for suspect in suspects:
        if suspect.row.touches in inside and not _at_once(fault, suspect):
            kinds.setdefault(suspect.kind, []).append(suspect)
    for _ in range(_TRIES if kinds else 0):
        having = list(kinds.values())[int(dice() * len(kinds))]
        other = having[int(dice() * len(having))]
        both = with_fault(with_fault(circuit, fault), other)
        if fed_from_elsewhere(both) != first.fed or not _all_alike(both, able, alone):
            continue
        if due.intersection(exercise(circuit, other, (), tests).odd):
            return other
    return None


def _all_alike(circuit: Circuit, tests: Sequence[Test], values: Sequence[float]) -> bool:
    """Whether every test reads what it read before; state by state, since most differ at once."""
    for together in by_state(tests):
        group = [tests[at] for at in together]
        if first_difference(group, [values[at] for at in together], readings(circuit, group)) is not None:
            return False
    return True


def _at_once(fault: Fault, suspect: Fault) -> bool:
    """Whether one repair would mend both: as a new RCD does, or what is done to one device of a starter."""
    if suspect.kind == fault.kind or (suspect.row.fails and suspect.row.repair == fault.row.repair):
        return True
    machine = "machine" in {fault.row.touches, suspect.row.touches}
    return machine and bool(_devices(fault) & _devices(suspect))


def _devices(fault: Fault) -> set[str]:
    """What is named in the fault, and in its edits."""
    return set(_DEVICE.findall(f"{fault.say} {fault.at}"))
