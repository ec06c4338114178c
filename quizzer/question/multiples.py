"""Round multiples: whether a value has more of them beside it than its neighbours have."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

ROUND = (1.0, 1.2, 1.25, sqrt(2), 1.5, sqrt(3), 2.0, 3.0, 4.0, 5.0, 10.0, 100.0, 1000.0)
ROUNDLY = 0.006


def stands_out(key: float, others: Sequence[float]) -> bool:
    """Whether more of the others are round multiples of the key, or round parts of it, than of any of themselves.

    >>> stands_out(20.0, [10.0, 60.0, 200.0]), stands_out(20.0, [10.0, 60.0, 30.0])
    (True, False)
    """
    mine = partners(key, others)
    return all(partners(one, [key, *others]) - 1 < mine for one in others)


def partners(value: float, others: Sequence[float]) -> int:
    """How many of the others are a round multiple or a round part of a value; the value itself counts as one.

    >>> partners(20.0, [10.0, 60.0, 27.0])
    2
    """
    return sum(_is_round(value, other) for other in others)


def _is_round(one: float, other: float) -> bool:
    if one * other <= 0:
        return False
    ratio = max(one / other, other / one)
    return any(abs(ratio / factor - 1) < ROUNDLY for factor in ROUND)
