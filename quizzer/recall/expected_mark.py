"""From what is known of topics and entries to a mark on the day of the exam, with honest intervals. Pure.

A question of topic k is on an entry that was met, or not, as chance draws from the bank's entries. One never met is
right with the chance g + (1 - g) G, G = R 2^(-days / H); one met with g + (1 - g) (f L + (1 - f) G), f = 2^(-days / nh)
what is left of its own memory after n meetings (`recall.py`). The mark's mean is the sum of them; its variance is that
of the questions' own luck, and of not knowing R, L, H and the rest. Both moments are then those of one beta-binomial,
from which the intervals and the chance of passing are read.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, fsum
from typing import Any, Final

from quizzer.distributions import beta_value, log_beta, log_ways
from quizzer.recall.guess import GUESS
from quizzer.recall.recall_grid import SPREAD_UNKNOWN, USUAL_HALF_LIFE, grid, kept_after, whole
from quizzer.recall.topics import Knowledge, Own
from quizzer.values import NamedTuple

_REPAIRED: Final = 9  # decimals after which the order of adding shows in a sum
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
    mean, variance = round(mean, _REPAIRED), round(variance, _REPAIRED)
    share = mean / questions
    luck = questions * share * (1 - share)
    spread = (variance / luck - 1) / (questions - 1) if questions > 1 and luck > 0 else 0.0
    beta = beta_of(share, share * (1 - share) * min(max(spread, 0.0), 0.999))
    before = log_beta(beta.a, beta.b)
    chances = [
        exp(log_ways(questions, k) + log_beta(beta.a + k, beta.b + questions - k) - before)
        for k in range(questions + 1)
    ]
    total = fsum(chances)
    return Marks(mean, variance, tuple(chance / total for chance in chances))


class Outlook(NamedTuple):
    """The chances of right answers on a day in each cell, and the weight of each cell: mean and variance by topic.

    `own` is the part of the mean that entries' own memories bring, by topic in each cell of their own: it is out the
    same way in all topics, where their strength and half-life are not known.
    """

    weights: Any
    mean: Any
    variance: Any
    own: Any = None
    own_weights: Any = None

    def topics(self) -> list[Beta]:
        """The chance of a right answer in each topic."""
        (betas,) = self.topics_leaning((0.0,))
        return betas

    def topics_leaning(self, ways: Sequence[float]) -> list[list[Beta]]:
        """The same for each of these ways, as in `leaning`."""
        import numpy as np

        square, own, found = self.variance + self.mean**2, self._own_variance(self.own), []
        for weights in map(self._leant, ways):
            mean = np.tensordot(self.mean, weights, axes=2)
            spread = np.tensordot(square, weights, axes=2) - mean**2 + own
            found.append([beta_of(float(m), float(s)) for m, s in zip(mean, spread, strict=True)])
        return found

    def marks(self, parts: Sequence[Part]) -> Marks:
        """The mark on a paper of these parts."""
        (marks,) = self.leaning(parts, (0.0,))
        return marks

    def leaning(self, parts: Sequence[Part], ways: Sequence[float]) -> tuple[Marks, ...]:
        """The mark for somebody who was taken beforehand to forget more slowly than usual, or faster (below 0).

        By so many standard deviations of how people differ in it: the answers are the same.
        """
        cells, questions = self._of_paper(parts), sum(part.questions for part in parts)
        return tuple(marks_of(*_overall(self._leant(way), *cells), questions) for way in ways)

    def _leant(self, way: float) -> Any:
        """The weights with other half-lives taken for usual: a power moves a lognormal and keeps its spread."""
        if not way:
            return self.weights
        lives = (grid().half_lives / USUAL_HALF_LIFE) ** (way / SPREAD_UNKNOWN)
        return whole(self.weights.reshape(-1, len(lives), self.weights.shape[-1]) * lives[:, None]).reshape(
            self.weights.shape
        )

    def _of_paper(self, parts: Sequence[Part]) -> tuple[Any, Any]:
        """Mean and variance of the mark in each cell."""
        import numpy as np

        questions, shares = np.array([part.questions for part in parts]), np.array([part.shares for part in parts])
        asked = questions @ shares
        mean = np.tensordot(shares, self.mean, axes=1)
        luck = np.tensordot(questions, mean * (1 - mean) - np.tensordot(shares**2, self.variance, axes=1), axes=1)
        mean = np.tensordot(asked, self.mean, axes=1)
        within = luck + np.tensordot(asked**2, self.variance, axes=1)
        own = None if self.own is None else np.tensordot(asked, self.own, axes=1)
        return mean, within + self._own_variance(own)

    def _own_variance(self, own: Any) -> Any:
        """The variance over the cells of the entries' strength, of what they bring to each of several sums."""
        if own is None:
            return 0.0
        middle = (self.own_weights * own).sum(axis=(-2, -1))
        return (self.own_weights * own**2).sum(axis=(-2, -1)) - middle**2


def outlook(knowledge: Knowledge, days: int, guess: float = GUESS, sizes: Sequence[int] | None = None) -> Outlook:
    """The chances `days` from now, if nothing is studied meanwhile; with `guess` 0 it is recall itself.

    `sizes` are the entries of each topic in the bank; without them all that is asked is new. A topic that was never
    answered is taken to have rested as long as the others on the average.
    """
    import numpy as np

    days = max(0, days)
    met = knowledge.idle >= 0
    rested = np.where(met, knowledge.idle, knowledge.idle[met].mean() if met.any() else 0)
    general = np.concatenate([kept_after(rested + days), kept_after(np.full(len(met), knowledge.since + days))], axis=1)
    new, own = (1.0, None) if sizes is None else _of_met(knowledge.own, days, sizes)
    scale = (1 - guess) * general[:, :, None] * new
    mean = guess + scale * knowledge.mean
    variance = scale**2 * np.maximum(knowledge.square - knowledge.mean**2, 0.0)
    if own is None:
        return Outlook(knowledge.weights, mean, variance)
    middle, spread = (((1 - guess) ** n * part)[:, None, None] for n, part in ((1, own.middle), (2, own.spread)))
    return Outlook(
        knowledge.weights,
        np.clip(mean + middle, 0.0, 1.0),
        variance + spread,
        (1 - guess) * own.mean,
        knowledge.own.weights,
    )


class _Brought(NamedTuple):
    """What the own memories of entries met bring to each topic: by cell, on the average, and the variance within."""

    mean: Any
    middle: Any
    spread: Any


def _of_met(own: Own, days: int, sizes: Sequence[int]) -> tuple[Any, _Brought]:
    """The share of each topic's entries answered as ones never met (with two empty axes); what the others bring."""
    import numpy as np

    many = np.maximum(np.asarray(sizes, dtype=float), 1.0)
    left = kept_after((own.idle + days) / own.meetings)
    of = (own.topics[None, :] == np.arange(len(many))[:, None]) / many[:, None]
    slope = (of @ (own.slope[:, None] * left))[:, :, None]
    mean = slope * own.mean + (of @ (own.shift[:, None] * left))[:, :, None]
    spread = slope**2 * np.maximum(own.square - own.mean**2, 0.0)
    gone = (of @ left) @ own.weights.sum(axis=1)
    return (1 - gone)[:, None, None], _Brought(
        mean, *(np.tensordot(part, own.weights, axes=2) for part in (mean, spread))
    )


def _overall(weights: Any, mean: Any, within: Any) -> tuple[float, float]:
    """Mean and variance over the cells."""
    middle = float((weights * mean).sum())
    return middle, float((weights * (within + mean**2)).sum()) - middle**2
