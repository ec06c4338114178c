"""Who is still suspected after some readings: suspects of a size are tried at every size of their range."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import sqrt
from typing import NamedTuple

from quizzer.circuit.model.fault import Fault, Span, with_fault
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.reading import told_apart
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.sizing import banded, fitting
from quizzer.circuit.testing.tests import Test

_ONE_SIZE = 1e-6  # the share by which sizes differ that are one


class Suspect(NamedTuple):
    """A fault that the readings allow: the sizes that still fit (None: it has none), and what tests would read of it.

    The values, by the number of the test, are those of the fault as it was drawn, in SI; for one of a size they decide
    nothing.
    """

    fault: Fault
    span: Span | None
    values: Mapping[int, float]


class _Readings(Mapping[int, float]):
    """What tests would read of a circuit with a fault: those of one state together, when the first of them is asked.

    Few of them ever are: who looks for the next test stops at the first group that tells something.
    """

    __slots__ = ("_circuit", "_fault", "_found", "_numbers", "_tests")

    def __init__(self, circuit: Circuit, fault: Fault, tests: Sequence[Test], numbers: Sequence[int]) -> None:
        self._circuit, self._fault, self._tests, self._numbers = circuit, fault, tests, numbers
        self._found: dict[int, float] = {}

    def __getitem__(self, number: int) -> float:
        if number not in self._found:
            asked = self._tests[number]
            alike = [n for n in self._numbers if self._tests[n].uses == asked.uses]
            together = [n for n in alike if self._tests[n].setting == asked.setting]
            if number not in together:
                raise KeyError(number)
            values = readings(with_fault(self._circuit, self._fault), [self._tests[n] for n in together])
            self._found |= zip(together, values, strict=True)
        return self._found[number]

    def __iter__(self) -> Iterator[int]:
        return iter(self._numbers)

    def __len__(self) -> int:
        return len(self._numbers)


def suspect_of(circuit: Circuit, fault: Fault, tests: Sequence[Test], numbers: Sequence[int]) -> Suspect:
    """A fault as nothing has been read yet, with what the tests of these numbers would read."""
    return Suspect(fault, fault.row.sizes, _Readings(circuit, fault, tests, numbers))


def surviving(
    circuit: Circuit, tests: Sequence[Test], read: Mapping[int, float], suspects: Sequence[Suspect]
) -> tuple[Suspect, ...]:
    """The suspects that none of the readings rules out, each with those of its sizes that fit them all together.

    What was left by some readings and is asked about others is left by all of them.
    """
    left = (_fitted(circuit, tests, read, suspect) for suspect in suspects)
    return tuple(suspect for suspect in left if suspect)


def _fitted(circuit: Circuit, tests: Sequence[Test], read: Mapping[int, float], suspect: Suspect) -> Suspect | None:
    if suspect.span is None:
        fits = not any(told_apart(tests[n], value, suspect.values[n]) for n, value in read.items())
        return suspect if fits else None
    if not read:
        return suspect
    span = suspect.span
    if span.high - span.low < _ONE_SIZE * span.high:
        span = Span(span.low * (1 - _ONE_SIZE), span.high * (1 + _ONE_SIZE))
    found = fitting(circuit, banded([tests[n] for n in read], list(read.values())), suspect.fault, span)
    return suspect._replace(span=found) if isinstance(found, Span) else None


def sampled(
    circuit: Circuit, tests: Sequence[Test], numbers: Sequence[int], suspects: Sequence[Suspect]
) -> dict[int, list[tuple[float, ...]]]:
    """For each test by number what each suspect would read: at its smallest, a middle and its largest size, or once."""
    named = [tests[n] for n in numbers]
    rows = [
        [[suspect.values[n] for n in numbers]] if suspect.span is None else at_sizes(circuit, named, suspect)
        for suspect in suspects
    ]
    return {n: [tuple(row[at] for row in each) for each in rows] for at, n in enumerate(numbers)}


def at_sizes(circuit: Circuit, tests: Sequence[Test], suspect: Suspect) -> list[list[float]]:
    """What the tests read of a suspect at the smallest, a middle and the largest size that still fits it."""
    if suspect.span is None:
        return [readings(with_fault(circuit, suspect.fault), tests)]
    low, high = suspect.span
    sizes = (low, sqrt(low * high), high)
    return [readings(with_fault(circuit, suspect.fault._replace(size=size)), tests) for size in sizes]
