"""Would the same people pass again? Consistency and accuracy of passing, from one sitting."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, floor, fsum
from typing import NamedTuple

from quizzer.distributions import beta_below, binomial_at_least, both_below, log_beta, log_ways, normal_below
from quizzer.marks.reliability import Spread

FEWEST = 30  # scripts; below that the spread itself is too uncertain


class Consistency(NamedTuple):
    """The share decided alike by two parallel papers, and kappa: how much better than chance that is."""

    share: float
    kappa: float


class Decisions(NamedTuple):
    """Livingston and Lewis: `accuracy` is the share decided as their true mark would have it."""

    length: float
    consistency: Consistency
    accuracy: float
    a: float
    b: float
    cut: int


def livingston(reliability: float, marks: Spread, cut: float) -> float:
    """Livingston's k squared: reliability round a pass mark. Source: J. Educ. Meas. 9 (1972) 13."""
    away, variance = (marks.mean - cut) ** 2, marks.deviation**2
    return (reliability * variance + away) / (variance + away)


def peng_subkoviak(reliability: float, marks: Spread, cut: int) -> Consistency:
    """Consistency from two normal marks that correlate as the reliability.

    Source: Peng and Subkoviak, J. Educ. Meas. 17 (1980) 359.
    """
    z = (cut - 0.5 - marks.mean) / marks.deviation
    below = normal_below(z)
    return _consistency(1 - 2 * (below - both_below(z, z, reliability)), 1 - below)


def subkoviak(reliability: float, totals: Sequence[int], questions: int, cut: int) -> Consistency:
    """Consistency person by person, each with a binomial share drawn towards the mean by the reliability.

    Source: M. J. Subkoviak, J. Educ. Meas. 13 (1976) 265.
    """
    mean = sum(totals) / len(totals)
    passing = {
        total: binomial_at_least(cut, questions, (reliability * total + (1 - reliability) * mean) / questions)
        for total in set(totals)
    }
    alike = fsum(passing[total] ** 2 + (1 - passing[total]) ** 2 for total in totals) / len(totals)
    return _consistency(alike, sum(passing[total] for total in totals) / len(totals))


def huynh(questions: int, marks: Spread, reliability21: float, cut: int) -> Consistency:
    """Consistency of the beta-binomial that KR-21 belongs to. Source: H. Huynh, J. Educ. Meas. 13 (1976) 253."""
    a = (1 / reliability21 - 1) * marks.mean
    return _beta_binomial(questions, a, questions / reliability21 - questions - a, cut)


def livingston_lewis(reliability: float, marks: Spread, questions: int, cut: int) -> Decisions | None:
    """Consistency and accuracy by effective length and a beta distribution of true shares.

    None where the marks do not fit such a distribution (no reliability, no spread).
    Source: Livingston and Lewis, J. Educ. Meas. 32 (1995) 179; the beta with two parameters, by its moments.
    """
    mean, variance = marks.mean, marks.deviation**2
    if not 0 < reliability < 1 or not 0 < mean < questions or not variance:
        return None
    effective = (mean * (questions - mean) - reliability * variance) / (variance * (1 - reliability))
    share = mean / questions
    both = share * (1 - share) / (reliability * variance / questions**2) - 1
    length = floor(effective + 0.5)
    if both <= 0 or length < 1:
        return None
    a, b, line = share * both, (1 - share) * both, cut / questions
    scaled = floor(line * length + 0.5)
    return Decisions(
        effective, _beta_binomial(length, a, b, scaled), _accuracy(length, a, b, scaled, line), a, b, scaled
    )


def _beta_binomial(n: int, a: float, b: float, cut: int) -> Consistency:
    """Two papers of `n` questions given the same true share, which is beta(a, b) over people."""
    whole, ways = log_beta(a, b), [log_ways(n, x) for x in range(n + 1)]
    joint = [log_beta(a + both, b + 2 * n - both) - whole for both in range(2 * n + 1)]
    low, high = range(cut), range(cut, n + 1)
    alike = fsum(exp(ways[x] + ways[y] + joint[x + y]) for side in (low, high) for x in side for y in side)
    passing = fsum(exp(ways[x] + log_beta(a + x, b + n - x) - whole) for x in high)
    return _consistency(alike, passing)


def _accuracy(n: int, a: float, b: float, cut: int, line: float) -> float:
    """The share whose mark and whose true share lie on the same side."""
    right = 0.0
    for x in range(n + 1):
        weight = exp(log_ways(n, x) + log_beta(a + x, b + n - x) - log_beta(a, b))
        below = beta_below(line, a + x, b + n - x)
        right += weight * (1 - below if x >= cut else below)
    return right


def _consistency(share: float, passing: float) -> Consistency:
    chance = passing**2 + (1 - passing) ** 2
    return Consistency(share, (share - chance) / (1 - chance) if chance < 1 else 0.0)
