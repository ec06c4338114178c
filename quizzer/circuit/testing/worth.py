"""What a test is worth: how many of the suspects it leaves on average."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from quizzer.circuit.testing.reading import told_apart
from quizzer.circuit.testing.tests import Test

PLAINLY = 0.75


def left_on_average(test: Test, suspects: Sequence[Sequence[float]]) -> float:
    """How many suspects a reading leaves, each suspect as likely as another.

    Each is given by what it reads at its smallest, a middle and its largest size, or once where it has no size: a
    reading leaves it when one of its sizes fits. Those that read alike are counted together.
    """
    alike = Counter(tuple(readings) for readings in suspects)
    left = 0.0
    for readings, many in alike.items():
        fit = (sum(_fits(test, value, other) * count for other, count in alike.items()) for value in readings)
        left += many * sum(fit) / len(readings)
    return left / len(suspects) if suspects else 0.0


def _fits(test: Test, value: float, readings: Sequence[float]) -> bool:
    """Whether a suspect can give the value: from its least reading to its greatest, or not told from one of them."""
    low, high = min(readings), max(readings)
    return low <= value <= high or not (told_apart(test, value, low) and told_apart(test, value, high))


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
