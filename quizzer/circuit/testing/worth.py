"""What a test is worth: how many of the suspects it leaves on average."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.circuit.testing.reading import Case, told_apart
from quizzer.circuit.testing.schedule import Test

PLAINLY = 0.75


def left_by(tests: Sequence[Test], cases: Sequence[Case]) -> list[float]:
    """For each test the suspects left on average, each suspect as likely as another."""
    return [left_on_average(test, [case.values[n] for case in cases]) for n, test in enumerate(tests)]


def left_on_average(test: Test, values: Sequence[float]) -> float:
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


def decisive(
    tests: Sequence[Test], values: Sequence[float], others: Sequence[Sequence[float]], odd: Sequence[bool]
) -> list[tuple[int, list[int]]]:
    """The tests that rule the others out, each with those it rules out, as an instructor names them.

    A dead reading stands before a look and a look before a live reading, which nobody would take with such a fault in;
    then many at a time, plainly, by an odd reading. Others that no test rules out are left over.
    """
    left, found = set(range(len(others))), []
    while left:
        out = [[k for k in sorted(left) if told_apart(test, values[n], others[k][n])] for n, test in enumerate(tests)]
        plain = [sum(_plain(values[n], others[k][n]) for k in out[n]) for n in range(len(tests))]
        # An odd reading before a usual one, and what is plain before what hangs on an instrument's accuracy.
        at = max(
            range(len(tests)), key=lambda n: (bool(out[n]), _first(tests[n]), plain[n] + odd[n] / 2, len(out[n]), -n)
        )
        if not out[at]:
            break
        found.append((at, out[at]))
        left -= set(out[at])
    return found


def _first(test: Test) -> int:
    """How early an instructor turns to a test: 2 for a dead one, 1 for a look, 0 for a live one."""
    return 0 if test.instrument.live else 1 if test.uses == "eye" else 2


def _plain(one: float, other: float) -> bool:
    """Whether two values differ so much that nobody needs the instrument's accuracy to tell them apart."""
    return min(one, other) < PLAINLY * max(one, other)
