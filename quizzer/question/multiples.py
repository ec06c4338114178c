"""What the sizes of options say by themselves: how many of the others seem to follow from each by one step."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import combinations
from math import sqrt

# Factors that a mistake of the trade brings in: prefixes, phases, 230 for 240 V, the correction to 70 °C, a tenth.
ROUND = sorted(
    (1.0, 240 / 230, 1 / 0.95, 1.1, 1.2, 1.25, 4 / 3, sqrt(2), 1.5, sqrt(3), 2.0, 3.0, 4.0, 5.0, 10.0, 100.0, 1000.0)
)
ROUNDLY = 0.006


def told(key: float, others: Sequence[float]) -> float:
    """The chance that the key is picked by whoever takes the value from which most of the others seem to follow.

    >>> told(20.0, [10.0, 60.0, 200.0]), told(20.0, [40.0, 80.0, 120.0]), told(20.0, [22.0, 60.0, 66.0])
    (1.0, 0.0, 0.25)
    """
    return picked(following([key, *others]))


def picked(counts: Sequence[int]) -> float:
    """The chance that the first is picked by whoever takes the one with the greatest count, by lot among equals.

    >>> picked((3, 1, 1, 1)), picked((2, 2, 1, 1)), picked((1, 2, 1, 1))
    (1.0, 0.5, 0.0)
    """
    return (counts[0] == max(counts)) / list(counts).count(counts[0])


def following(values: Sequence[float]) -> list[int]:
    """How many of the others seem to follow from each value.

    A round multiple or a round part of it does; two that lie as far below as above it, by difference or by ratio, are
    one more.

    >>> following([20.0, 10.0, 60.0, 27.0]), following([10.0, 13.0, 16.0, 61.0])
    ([2, 1, 1, 0], [0, 1, 0, 0])
    """
    counts = [0] * len(values)
    for one, other in combinations(range(len(values)), 2):
        if _is_round(values[one], values[other]):
            counts[one] += 1
            counts[other] += 1
        for at, value in enumerate(values):
            if at not in (one, other) and _is_between(value, values[one], values[other]):
                counts[at] += 1
    return counts


def _is_round(one: float, other: float) -> bool:
    if one * other <= 0:
        return False
    ratio = max(one / other, other / one)
    at = bisect_left(ROUND, ratio * (1 - ROUNDLY))
    return at < len(ROUND) and ROUND[at] <= ratio * (1 + ROUNDLY)


def _is_between(value: float, one: float, other: float) -> bool:
    size = abs(value)
    return abs(one + other - 2 * value) < ROUNDLY * size or abs(one * other - value * value) < ROUNDLY * size * size
