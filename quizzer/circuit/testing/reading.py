"""Readings told in words, compared within accuracy, and what they leave of the suspects."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf
from typing import NamedTuple

from quizzer.circuit.model.edits import AddedOhms
from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.model.network import network_of
from quizzer.circuit.model.wiring import Circuit, Wire
from quizzer.circuit.testing.instruments import differ, shown
from quizzer.circuit.testing.schedule import NETWORKED, SOUND, TYPES, Test, in_state, readings
from quizzer.circuit.testing.sizing import by_state, unlike_at_any_size


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
    return shown(test.instrument, value)


def told_apart(test: Test, one: float, other: float) -> bool:
    """Whether this test tells two values apart; two insulations far above the limit tell a person nothing."""
    if test.uses == "insulation" and min(one, other) > SOUND:
        return False
    return one != other if test.uses == "eye" else differ(test.instrument, one, other)


def first_difference(tests: Sequence[Test], one: Sequence[float], other: Sequence[float]) -> int | None:
    """The first test that tells two sets of readings apart; None where no test does."""
    return next((n for n, test in enumerate(tests) if told_apart(test, one[n], other[n])), None)


def unlike(circuit: Circuit, tests: Sequence[Test], values: Sequence[float], fault: Fault) -> tuple[int, float] | None:
    """The first test that a fault would read otherwise, and what it would read; None where all would be alike.

    A fault that can be of many sizes is tried at all of them: it differs only where none of its sizes fits.
    Tests in one state are read together, and the next state only while nothing differs: most suspects fall at once.
    """
    if fault.row.sizes:
        found = unlike_at_any_size(circuit, tests, values, fault, fault.row.sizes)
        return found and (found.at, found.value)
    faulty = with_fault(circuit, fault)
    broken = _broken(circuit, fault)
    for together in by_state(tests):
        group = [tests[at] for at in together]
        read = _without(circuit, broken, group) if broken and _cheap(group) else readings(faulty, group)
        for at, value in zip(together, read, strict=True):
            if told_apart(tests[at], values[at], value):
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


def grouped(circuit: Circuit, tests: Sequence[Test], values: Sequence[float]) -> list[str]:
    """The record sheet in lines: tests of one group together, places that read alike in one entry."""
    lines: dict[str, dict[str, list[str]]] = {}
    for test, value in zip(tests, values, strict=True):
        lines.setdefault(test.group, {}).setdefault(told(circuit, test, value), []).append(test.place)
    return [f"{group}: {_entries(found)}." for group, found in lines.items()]


def _entries(found: Mapping[str, list[str]]) -> str:
    return "; ".join(f"{', '.join(_runs(places))} {text}".strip() for text, places in found.items())


def _runs(places: Sequence[str]) -> list[str]:
    """Places with numbers in a row drawn together: socket 1, socket 2, socket 3 become sockets 1-3.

    >>> _runs(["socket 1", "socket 2", "socket 3", "socket 5"])
    ['sockets 1-3', 'socket 5']
    """
    runs: list[list[str]] = []
    for place in places:
        word, _, number = place.rpartition(" ")
        last = runs[-1][-1].rpartition(" ") if runs else ("", "", "")
        if number.isdigit() and word == last[0] and int(number) == int(last[2]) + 1:
            runs[-1].append(place)
        else:
            runs.append([place])
    return [run[0] if len(run) == 1 else _run(run[0], run[-1]) for run in runs]


def _run(first: str, last: str) -> str:
    word, _, number = first.rpartition(" ")
    plural = f"{word}es" if word.endswith("ch") else f"{word}s"
    return f"{plural} {number}-{last.rpartition(' ')[2]}"
