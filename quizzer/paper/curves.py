"""Expected scores at several levels of ability: what makes two forms equally hard for everybody, not on average only.

The model is Rasch's: a question of difficulty b is answered right with chance 1 / (1 + exp(b - ability)). A facility
becomes a difficulty by the usual approximation of the logistic over a standard normal group,
b = -logit(p) x sqrt(1 + pi / 8).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

ABILITIES = (-2.0, -1.0, 0.0, 1.0, 2.0)
_SPREAD = math.sqrt(1 + math.pi / 8)


def difficulty(facility: float) -> float:
    """The Rasch difficulty of a facility between 0 and 1.

    >>> difficulty(0.5)
    -0.0
    """
    return -math.log(facility / (1 - facility)) * _SPREAD


def deviation(facility: float, doubt: float) -> float:
    """The standard deviation of the difficulty of a facility with this variance: that over the slope, p (1 - p) / 1.18.

    >>> round(deviation(0.5, 0.0119), 2)
    0.51
    """
    return math.sqrt(doubt) * _SPREAD / (facility * (1 - facility))


def chances(facility: float) -> tuple[float, ...]:
    """The chance of a right answer at each ability."""
    b = difficulty(min(max(facility, 0.02), 0.98))
    return tuple(1 / (1 + math.exp(b - ability)) for ability in ABILITIES)


def gap(curves: Sequence[Sequence[float]]) -> float:
    """The greatest difference between any two forms' expected scores at any ability, in marks."""
    return max((max(column) - min(column) for column in zip(*curves, strict=True)), default=0.0)
