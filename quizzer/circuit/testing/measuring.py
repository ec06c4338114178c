"""Readings as one instrument takes them on one day: a little out, and never by more than its accuracy."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from quizzer.circuit.model.fault import Uses
from quizzer.circuit.testing.instrument import Instrument
from quizzer.circuit.testing.instruments import step_of
from quizzer.circuit.testing.tests import Test

Dice = Callable[[], float]

_READ_HIGH: set[Uses] = {
    "loop"
}  # else the loop at the end of a circuit could be shown as lower than Z_e, which is given
_LOOP_TESTER: set[Uses] = {"loop", "origin"}  # read by one instrument
_JITTER = 0.5  # of the last digit, from one reading to the next


def measured(tests: Sequence[Test], values: Sequence[float], dice: Dice) -> tuple[float, ...]:
    """The values as they are measured, in SI: each instrument out by one share of all it reads, and by its last digit.

    The share is within its accuracy, so readings that belong together stay together, as they do on a real sheet.
    """
    return as_read(tests, values, shares_of(tests, dice), dice)


def measured_in_parts(parts: Sequence[Sequence[Test]], values: Sequence[float], dice: Dice) -> tuple[float, ...]:
    """The values of parts of tests as they are measured, part after part.

    A loop tester is out by one share at the origin and at every point: else a loop in TT could read a tenth over the
    sum of Z_e and R1+R2, or over that of another line, which its accuracy does not explain.
    """
    found: list[float] = []
    loop: float | None = None
    for part in parts:
        shares = shares_of(part, dice)
        loop = shares.get("loop") if loop is None else loop
        if loop is not None:
            shares |= dict.fromkeys(_LOOP_TESTER & shares.keys(), loop)
        found += as_read(part, values[len(found) : len(found) + len(part)], shares, dice)
    return tuple(found)


def shares_of(tests: Sequence[Test], dice: Dice) -> dict[Uses, float]:
    """By how much of all it reads each instrument of these tests is out on that day."""
    shares = {uses: (2 * dice() - 1) * _share(tests, uses) for uses in dict.fromkeys(test.uses for test in tests)}
    return shares | {uses: abs(shares[uses]) for uses in _READ_HIGH & shares.keys()}


def as_read(
    tests: Sequence[Test], values: Sequence[float], shares: Mapping[Uses, float], dice: Dice
) -> tuple[float, ...]:
    """The values as instruments read them that are out by these shares, each by its last digit as well."""
    return tuple(
        _read(test.instrument, value, shares[test.uses], (2 * dice() - 1) * _JITTER)
        for test, value in zip(tests, values, strict=True)
    )


def _share(tests: Sequence[Test], uses: Uses) -> float:
    return next(test.instrument.share for test in tests if test.uses == uses)


def _read(instrument: Instrument, value: float, share: float, digit: float) -> float:
    scaled = value * instrument.scale
    if scaled > instrument.end or not instrument.share:
        return value
    read = scaled * (1 + share) + digit * step_of(instrument, scaled)
    return min(max(read, 0.0), instrument.end) / instrument.scale
