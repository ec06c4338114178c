"""What a test is worth: how many of the suspects it leaves on average."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.circuit.reading import Case, told_apart
from quizzer.circuit.testing import Check


def left_by(tests: Sequence[Check], cases: Sequence[Case]) -> list[float]:
    """For each test the suspects left on average, each suspect as likely as another."""
    return [_left(test, [case.values[n] for case in cases]) for n, test in enumerate(tests)]


def _left(test: Check, values: Sequence[float]) -> float:
    """Each value's count of values that cannot be told from it, averaged; equal values are counted once."""
    count: dict[float, int] = {}
    for value in values:
        count[value] = count.get(value, 0) + 1
    alike = (
        one_count * other_count
        for one, one_count in count.items()
        for other, other_count in count.items()
        if not told_apart(test, one, other)
    )
    return sum(alike) / len(values) if values else 0.0


def best(left: Sequence[float]) -> int:
    """The first of the tests that leave fewest."""
    return min(range(len(left)), key=lambda n: left[n])


def surviving(test: Check, at: int, value: float, cases: Sequence[Case]) -> tuple[Case, ...]:
    """The cases that a reading does not rule out."""
    return tuple(case for case in cases if not told_apart(test, value, case.values[at]))


def fewest_tests(tests: Sequence[Check], cases: Sequence[Case], true: Case) -> list[int]:
    """The tests that a person would do who always takes the best one, until no other family of faults is left."""
    done: list[int] = []
    while _families(cases) > 1 and len(done) < len(tests):
        left = left_by(tests, cases)
        at = best(left)
        after = surviving(tests[at], at, true.values[at], cases)
        if len(after) == len(cases):
            break
        done.append(at)
        cases = after
    return done


def _families(cases: Sequence[Case]) -> int:
    return len({case.fault.say if case.fault else "" for case in cases})
