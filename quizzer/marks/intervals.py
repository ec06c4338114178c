"""Shares and marks with the doubt that belongs to them."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, sqrt
from typing import NamedTuple

from quizzer.distributions import beta_below, drawn_at_most, t_value

Z95 = 1.959963984540054
FEWEST_TO_RANK = 15  # below that many questions a share says next to nothing beside another


class ConfidenceInterval(NamedTuple):
    """From where to where a value lies, nineteen times in twenty unless it is said otherwise."""

    low: float
    high: float


class Band(NamedTuple):
    """One standard error of a mark, in marks, with whole marks either side of it.

    `low` to `high` holds the true mark about two times in three, `again_low` to `again_high` the mark of a similar
    paper: that one has an error of its own, so its band is wider by the square root of two.
    """

    error: float
    low: int
    high: int
    again_low: int
    again_high: int


def wilson(right: int, asked: int) -> ConfidenceInterval:
    """The 95 % interval of a share.

    Source: E. B. Wilson, J. Amer. Statist. Assoc. 22 (1927) 209.

    >>> [round(x, 2) for x in wilson(3, 5)]
    [0.23, 0.88]
    """
    if not asked:
        return ConfidenceInterval(0.0, 1.0)
    share, z2 = right / asked, Z95 * Z95
    middle = share + z2 / (2 * asked)
    half = Z95 * sqrt(share * (1 - share) / asked + z2 / (4 * asked * asked))
    whole = 1 + z2 / asked
    return ConfidenceInterval(max(0.0, (middle - half) / whole), min(1.0, (middle + half) / whole))


def too_few_to_rank(asked: int) -> bool:
    """Whether so many questions are too few to set one topic of one person beside another."""
    return asked < FEWEST_TO_RANK


def error_of_mark(mark: int, questions: int) -> float:
    """The conditional standard error of a mark: Lord's, from the binomial.

    Nobody is certain to get everything right or wrong, so the ends are taken half a mark inside.
    Source: F. M. Lord, Educ. Psychol. Meas. 17 (1957) 510.

    >>> round(error_of_mark(36, 60), 2), round(error_of_mark(60, 60), 2)
    (3.83, 0.71)
    """
    if questions < 2:
        return float(questions)
    inside = min(max(float(mark), 0.5), questions - 0.5)
    return sqrt(inside * (questions - inside) / (questions - 1))


def band(mark: int, questions: int) -> Band:
    """The band of one standard error round a mark, in whole marks of the paper."""
    error = error_of_mark(mark, questions)
    low, high = _within(mark, error, questions)
    again_low, again_high = _within(mark, error * sqrt(2), questions)
    return Band(error, low, high, again_low, again_high)


def chance_above(mark: int, questions: int, pass_mark: int) -> float:
    """The chance that the true mark (the mean over all papers of this kind) is at or above the pass mark.

    From this paper's answers alone: the posterior of a binomial share with Jeffreys' prior. It says nothing about
    another examination.

    >>> round(chance_above(36, 60, 36), 2), chance_above(41, 60, 36) > 0.9
    (0.5, True)
    """
    return 1 - beta_below(pass_mark / questions, mark + 0.5, questions - mark + 0.5)


def near_the_line(mark: int, questions: int, pass_mark: int) -> bool:
    """Whether a mark is within one standard error of the pass mark, so that chance may have decided."""
    return abs(mark - pass_mark) <= error_of_mark(mark, questions)


def unlike_the_rest(right: int, asked: int, mark: int, questions: int, looks: int) -> int:
    """-1 or 1 when a topic is lower or higher than the person's own mark explains, else 0.

    Two-sided, at 5 % shared out over all the topics looked at.
    """
    limit = 0.025 / max(1, looks)
    if drawn_at_most(right, asked, mark, questions) < limit:
        return -1
    above = 1 - drawn_at_most(right - 1, asked, mark, questions) if right else 1.0
    return 1 if above < limit else 0


def mean_interval(values: Sequence[float]) -> ConfidenceInterval | None:
    """The 95 % interval of a mean over people; None for fewer than two."""
    n = len(values)
    if n < 2:
        return None
    mean = fsum(values) / n
    half = t_value(0.975, n - 1) * sqrt(fsum((each - mean) ** 2 for each in values) / (n - 1) / n)
    return ConfidenceInterval(mean - half, mean + half)


def _within(mark: int, error: float, questions: int) -> tuple[int, int]:
    return max(0, round(mark - error)), min(questions, round(mark + error))
