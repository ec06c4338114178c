"""What one cell of the table found: how the marks and ranges told to invented learners compare with what they got."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from quizzer.workflows.forecast.readiness import Readiness

BINS, RUNS = 10, 200
FEWEST = 30  # learners with a number, or with a range: fewer than that say nothing about a cell
BIAS = {0: 1.5, 21: 2.0}  # marks of 60 that are allowed, by the days ahead
COVER = (0.86, 0.95)
BEYOND_LUCK = 0.06


class Numbers(NamedTuple):
    """The measures over the learners who were given a number, each with its standard error.

    `beyond` is the error of calibration of the chance of passing less what luck alone would show; `width` the mean
    width of the 90 % interval.
    """

    learners: int
    bias: float
    bias_error: float
    cover: float
    cover_error: float
    beyond: float
    beyond_error: float
    width: float
    rmse: float

    def kept(self, ahead: int) -> bool:
        """Whether numbers for so many days ahead are within the goal."""
        return abs(self.bias) <= BIAS[ahead] and COVER[0] <= self.cover <= COVER[1] and self.beyond <= BEYOND_LUCK


class Ranges(NamedTuple):
    """The measures over the learners who were told a range and no number, because how fast they forget is not known."""

    learners: int
    cover: float
    cover_error: float
    width: float

    def kept(self) -> bool:
        """Whether the ranges hold the mark often enough: they are wide on purpose, so there is no upper limit."""
        return self.cover >= COVER[0]


class Found(NamedTuple):
    """A cell: the shares of learners who are given a number, or a range; the measures where these are enough people."""

    told: float
    ranged: float
    numbers: Numbers | None
    ranges: Ranges | None

    def kept(self, ahead: int) -> bool:
        """Whether everything that is told is within the goal."""
        return (self.numbers is None or self.numbers.kept(ahead)) and (self.ranges is None or self.ranges.kept())


def found(estimates: Sequence[Readiness], marks: Sequence[int], seed: int = 1) -> Found:
    """The measures of a cell."""
    pairs = list(zip(estimates, marks, strict=True))
    told = [(one, mark) for one, mark in pairs if one.marks]
    ranged = [(one, mark) for one, mark in pairs if one.span and not one.marks]
    return Found(
        len(told) / len(pairs),
        len(ranged) / len(pairs),
        _numbers(told, seed) if len(told) >= FEWEST else None,
        _ranges(ranged) if len(ranged) >= FEWEST else None,
    )


def _numbers(told: Sequence[tuple[Readiness, int]], seed: int) -> Numbers:
    rows = np.array([_row(one.marks, one.blueprint.pass_mark, mark) for one, mark in told], dtype=float)
    errors, chance, passed = rows.T
    luck = lucks(chance, np.random.default_rng(seed))
    many = len(rows)
    cover, cover_error, width = _cover(told)
    return Numbers(
        many,
        errors.mean(),
        errors.std() / many**0.5,
        cover,
        cover_error,
        ece(chance, passed) - luck.mean(),
        luck.std(),
        width,
        float((errors**2).mean() ** 0.5),
    )


def _ranges(ranged: Sequence[tuple[Readiness, int]]) -> Ranges:
    return Ranges(len(ranged), *_cover(ranged))


def _cover(people: Sequence[tuple[Readiness, int]]) -> tuple[float, float, float]:
    """The share of ranges that hold the mark, its standard error, and their mean width."""
    ends = np.array([(*one.span, mark) for one, mark in people], dtype=float)
    low, high, mark = ends.T
    cover = float(((low <= mark) & (mark <= high)).mean())
    return cover, (cover * (1 - cover) / len(ends)) ** 0.5, float((high - low).mean())


def _row(marks, pass_mark: int, mark: int) -> tuple[float, ...]:  # noqa: ANN001
    return marks.mean - mark, marks.at_least(pass_mark), mark >= pass_mark


def ece(chance: np.ndarray, hit: np.ndarray) -> float:
    """The mean distance between what was said and what came, over ten bins of equal count."""
    bins = np.array_split(np.argsort(chance, kind="stable"), BINS)
    return float(sum(len(one) * abs(chance[one].mean() - hit[one].mean()) for one in bins) / len(chance))


def lucks(chance: np.ndarray, dice: np.random.Generator) -> np.ndarray:
    """That error in runs in which everything came just as often as was said."""
    return np.array([ece(chance, (dice.random(len(chance)) < chance).astype(int)) for _ in range(RUNS)])
