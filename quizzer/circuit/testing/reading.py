"""Readings told in words, compared within accuracy, and what they leave of the suspects."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from quizzer.circuit.model.control.motor import in_words
from quizzer.circuit.model.edits import AddedOhms
from quizzer.circuit.model.fault import Fault, Span, with_fault
from quizzer.circuit.model.network import network_of
from quizzer.circuit.model.wiring import Circuit, Wire
from quizzer.circuit.testing.instruments import differ, shown
from quizzer.circuit.testing.schedule import NETWORKED, SOUND, TYPES, in_state, readings
from quizzer.circuit.testing.sizing import InOneState, banded, fitting
from quizzer.circuit.testing.tests import Test

# The kind of a place, its number or how the switches of a light stand, and what else is said of it.
_PLACE = re.compile(r"(\D*?) (\d+|(?<=^switches )[-a-z]+)( .*)?")


class Case(NamedTuple):
    """A fault (None: sound) and what each test of the schedule reads with it."""

    fault: Fault | None
    values: tuple[float, ...]


def case_of(circuit: Circuit, fault: Fault | None, tests: Sequence[Test]) -> Case:
    """The readings of the circuit with the fault in it."""
    faulty = with_fault(circuit, fault) if fault else circuit
    return Case(fault, tuple(readings(faulty, tests)))


def told(circuit: Circuit, test: Test, value: float) -> str:
    """A reading as the record sheet shows it."""
    if test.uses == "eye":
        return f"{TYPES[int(value)]}{circuit.device.amps}"
    if test.uses == "operating":
        return in_words(circuit.shape, int(value))
    return shown(test.instrument, value)


def told_apart(test: Test, one: float, other: float) -> bool:
    """Whether this test tells two values apart; two insulations far above the limit tell a person nothing."""
    if test.uses == "insulation" and min(one, other) > SOUND:
        return False
    return one != other if test.uses in {"eye", "operating"} else differ(test.instrument, one, other)


def first_difference(tests: Sequence[Test], one: Sequence[float], other: Sequence[float]) -> int | None:
    """The first test that tells two sets of readings apart; None where no test does."""
    return next((n for n, test in enumerate(tests) if told_apart(test, one[n], other[n])), None)


def unlike(circuit: Circuit, tests: Sequence[Test], values: Sequence[float], fault: Fault) -> tuple[int, float] | None:
    """The first test that a fault would read otherwise, and what it would read; None where all would be alike.

    A fault that can be of many sizes is tried at all of them: it differs only where none of its sizes fits.
    Tests in one state are read together, and the next state only while nothing differs: most suspects fall at once.
    """
    return unlike_in(circuit, banded(tests, values), values, fault)


def unlike_in(
    circuit: Circuit, states: Sequence[InOneState], values: Sequence[float], fault: Fault
) -> tuple[int, float] | None:
    """What `unlike` gives, for tests that were put together state by state before."""
    if fault.row.sizes:
        found = fitting(circuit, states, fault, fault.row.sizes)
        return None if isinstance(found, Span) else (found.at, found.value)
    faulty = with_fault(circuit, fault)
    broken = _broken(circuit, fault)
    for together, group, _ in states:
        read = _without(circuit, broken, group) if broken and _cheap(group) else readings(faulty, group)
        for at, test, value in zip(together, group, read, strict=True):
            if told_apart(test, values[at], value):
                return at, value
    return None


def _broken(circuit: Circuit, fault: Fault) -> Wire | None:
    """The wire that the fault breaks, if it breaks one."""
    if not isinstance(fault.at, AddedOhms) or fault.size < inf:
        return None
    return next(wire for wire in circuit.wires if wire.id == fault.at.wire)


def _cheap(tests: Sequence[Test]) -> bool:
    """Whether tests in one state read a broken wire from the solution of the sound circuit."""
    return tests[0].uses in NETWORKED and not tests[0].setting.volts


def _without(circuit: Circuit, wire: Wire, tests: Sequence[Test]) -> list[float]:
    branches, solid = in_state(circuit, tests[0].setting)
    pairs = tuple((circuit.node(test.probes[0]), circuit.node(test.probes[1])) for test in tests)
    return network_of(tuple(branches), solid).without(wire, pairs)


def recorded(circuit: Circuit, tests: Sequence[Test], values: Sequence[float]) -> dict[str, list[tuple[str, str]]]:
    """The record sheet: for each group of tests its readings, each with the places that read alike."""
    found: dict[str, dict[str, list[str]]] = {}
    for test, value in zip(tests, values, strict=True):
        found.setdefault(test.group, {}).setdefault(told(circuit, test, value), []).append(test.place)
    return {
        group: [(", ".join(_runs(places)), text) for text, places in readings.items()]
        for group, readings in found.items()
    }


def grouped(circuit: Circuit, tests: Sequence[Test], values: Sequence[float]) -> list[str]:
    """The record sheet in lines: tests of one group together, places that read alike in one entry."""
    worded = {test.group for test in tests if test.uses == "operating"}
    return [
        f"{group}: {'; '.join(_entry(where, text, group in worded) for where, text in readings)}."
        for group, readings in recorded(circuit, tests, values).items()
    ]


def _entry(where: str, text: str, worded: bool) -> str:
    return f"{where}{':' if worded else ''} {text}".strip()


def _runs(places: Sequence[str]) -> list[str]:
    """Places of one kind named together, with numbers in a row drawn together.

    >>> _runs(["socket 1", "socket 2", "socket 3", "socket 5", "spur socket 6"])
    ['sockets 1-3, 5', 'spur socket 6']
    >>> _runs(["strapper 1 between switch 1 and the light", "strapper 2 between switch 1 and the light"])
    ['strappers 1-2 between switch 1 and the light']
    >>> _runs(["switches up-up", "switches down-down", "line to earth", "line to neutral"])
    ['switches up-up, down-down', 'line to earth', 'line to neutral']
    """
    kinds: list[tuple[str, str, list[str]]] = []
    for place in places:
        found = _PLACE.fullmatch(place)
        kind, one, rest = (found[1], found[2], found[3] or "") if found else (place, "", "")
        if one and kinds and kinds[-1][:2] == (kind, rest):
            kinds[-1][2].append(one)
        else:
            kinds.append((kind, rest, [one] if one else []))
    return [_named(*each) for each in kinds]


def _named(kind: str, rest: str, found: Sequence[str]) -> str:
    if not found:
        return kind
    if not found[0].isdigit():
        return f"{kind} {', '.join(found)}{rest}"
    plural = f"{kind}{'' if len(found) == 1 else 'es' if kind.endswith('ch') else 's'}"
    return f"{plural} {', '.join(_in_a_row([int(each) for each in found]))}{rest}"


def _in_a_row(numbers: Sequence[int]) -> list[str]:
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return [str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs]
