"""What somebody studies for: how much each entry counts in the paper, and the sections of the paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from quizzer.values import NamedTuple

LEAST: Final = 1 / 8  # of what an entry usually counts: no entry is worth nothing


class Aims(NamedTuple):
    """The weights of entries (1 is the mean of those that the paper may ask, 0 is not asked), and sections as entries.

    Without weights every entry counts alike, and no topic is sought out.
    """

    weights: Mapping[str, float]
    sections: Sequence[frozenset[str]]

    def weight(self, entry: str) -> float:
        """What the entry counts."""
        return self.weights.get(entry, 0.0) if self.weights else 1.0


NO_AIMS: Final = Aims({}, ())


def part_of(entry: str) -> str:
    """The sub-topic: `testing/ring` of `testing/ring/cross-reading`; an entry without one stands alone."""
    return entry.rpartition("/")[0] or entry


def weighed(gain: float, entry: str, aims: Aims) -> float:
    """A gain by what the entry counts; what gains nothing is not made better by counting little.

    The weight has a floor, as the paper is not all there is.
    """
    return gain * max(aims.weight(entry), LEAST) if gain > 0 else gain
