"""From what is known of topics to a mark on the day of the exam, with honest intervals. Pure.

A question of topic k is right with the chance p_k = g + (1 - g) R_k 2^(-days / H). The mark's mean is the sum of them;
its variance is that of the questions' own luck, and of not knowing R, H and the rest. Both moments are then those of
one beta-binomial, from which the intervals and the chance of passing are read.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, fsum
from typing import Any, Final, NamedTuple

from quizzer.distributions import beta_value, log_beta, log_ways
from quizzer.insight.recall import GUESS, Knowledge, kept_after

LIKE_A_COIN: Final = 1e9  # the a + b of a beta so narrow that nothing but the questions' luck is left


class Beta(NamedTuple):
    """A share that is not known for certain: a beta distribution."""

    a: float
    b: float

    @property
    def mean(self) -> float:
        """Its mean."""
        return self.a / (self.a + self.b)

    def between(self, share: float) -> tuple[float, float]:
        """The ends of the interval that holds it with the chance `share`, as much above as below."""
        return self.below((1 - share) / 2), self.below((1 + share) / 2)

    def below(self, share: float) -> float:
        """The value it stays below with the chance `share`."""
        return beta_value(share, self.a, self.b)


class Part(NamedTuple):
    """A part of a paper: its questions, and the share of them that each topic gives (by the topic's number)."""

    questions: int
    shares: Sequence[float]


class Marks(NamedTuple):
    """A mark to come: its mean and variance, and the chance of each mark from 0 on."""

    mean: float
    variance: float
    chances: tuple[float, ...]

    def between(self, share: float) -> tuple[int, int]:
        """The marks that hold it with the chance `share` as nearly as whole marks can, both sides alike."""
        out = (1 - share) / 2
        return self._first(self.chances, out), len(self.chances) - 1 - self._first(self.chances[::-1], out)

    def at_least(self, mark: int) -> float:
        """The chance of this mark or more."""
        return fsum(self.chances[max(0, mark) :])

    @staticmethod
    def _first(chances: Sequence[float], out: float) -> int:
        """How many marks from this end are left out, so that their chance is nearest to `out`."""
        total = 0.0
        for at, chance in enumerate(chances):
            if total + chance / 2 > out:
                return at
            total += chance
        return len(chances) - 1


def beta_of(mean: float, variance: float) -> Beta:
    """The beta distribution of this mean and variance.

    >>> beta_of(0.8, 0.16 / 11)
    Beta(a=8.0, b=2.0)
    """
    mean = min(max(mean, 1e-6), 1 - 1e-6)
    size = mean * (1 - mean) / variance - 1 if variance > 0 else LIKE_A_COIN
    size = min(max(size, 1e-3), LIKE_A_COIN)
    return Beta(round(mean * size, 9), round((1 - mean) * size, 9))


def marks_of(mean: float, variance: float, questions: int) -> Marks:
    """Marks out of `questions` with this mean and variance, as a beta-binomial."""
    share = mean / questions
    luck = questions * share * (1 - share)
    spread = (variance / luck - 1) / (questions - 1) if questions > 1 and luck > 0 else 0.0
    beta = beta_of(share, share * (1 - share) * min(max(spread, 0.0), 0.999))
    chances = [
        exp(log_ways(questions, k) + log_beta(beta.a + k, beta.b + questions - k) - log_beta(beta.a, beta.b))
        for k in range(questions + 1)
    ]
    total = fsum(chances)
    return Marks(mean, variance, tuple(chance / total for chance in chances))


class Outlook(NamedTuple):
    """The chances of right answers on a day in each cell, and the weight of each cell: mean and variance by topic."""

    weights: Any
    mean: Any
    variance: Any

    def topics(self) -> list[Beta]:
        """The chance of a right answer in each topic."""
        mean = (self.weights * self.mean).sum(axis=(1, 2))
        square = (self.weights * (self.variance + self.mean**2)).sum(axis=(1, 2))
        return [beta_of(float(m), float(s - m * m)) for m, s in zip(mean, square, strict=True)]

    def marks(self, parts: Sequence[Part]) -> Marks:
        """The mark on a paper of these parts."""
        import numpy as np

        asked: Any = 0.0
        luck: Any = 0.0
        for part in parts:
            shares = np.asarray(part.shares)
            mean = np.tensordot(shares, self.mean, axes=1)
            within = np.tensordot(shares**2, self.variance, axes=1)
            asked = asked + part.questions * shares
            luck = luck + part.questions * (mean * (1 - mean) - within)
        mean = np.tensordot(asked, self.mean, axes=1)
        within = luck + np.tensordot(asked**2, self.variance, axes=1)
        middle, variance = _overall(self.weights, mean, within)
        return marks_of(middle, variance, sum(part.questions for part in parts))


def outlook(knowledge: Knowledge, days: int, guess: float = GUESS) -> Outlook:
    """The chances `days` from now, if nothing is studied meanwhile; with `guess` 0 it is recall itself.

    A topic that was never answered is taken to have rested as long as the others on the average.
    """
    import numpy as np

    met = knowledge.idle >= 0
    rested = np.where(met, knowledge.idle, knowledge.idle[met].mean() if met.any() else 0)
    scale = (1 - guess) * kept_after(rested + max(0, days))[:, :, None]
    spread = np.maximum(knowledge.square - knowledge.mean**2, 0.0)
    return Outlook(knowledge.weights, guess + scale * knowledge.mean, scale**2 * spread)


def _overall(weights: Any, mean: Any, within: Any) -> tuple[float, float]:
    """Mean and variance over the cells."""
    middle = float((weights * mean).sum())
    return middle, float((weights * (within + mean**2)).sum()) - middle**2
