"""What one cell of the table found: how the marks named for invented learners compare with those they then got."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from quizzer.workflows.forecast.readiness import Readiness

BINS, RUNS = 10, 200
FEWEST = 30  # learners with a number: fewer than that say nothing about a cell
BIAS = {0: 1.5, 21: 2.0}  # marks of 60 that are allowed, by the days ahead
COVER = (0.86, 0.95)
BEYOND_LUCK = 0.06


class Found(NamedTuple):
    """The measures over the learners who were given a number, each with its standard error.

    `told` is the share of them among all; `beyond` the error of calibration of the chance of passing less what luck
    alone would show; `width` the mean width of the 90 % interval.
    """

    told: float
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
        """Whether a cell for so many days ahead is within the goal."""
        return abs(self.bias) <= BIAS[ahead] and COVER[0] <= self.cover <= COVER[1] and self.beyond <= BEYOND_LUCK


def found(estimates: Sequence[Readiness], marks: Sequence[int], seed: int = 1) -> Found | None:
    """The measures; None where hardly anybody is given a number."""
    told = [(one.marks, one.blueprint.pass_mark, mark)
            for one, mark in zip(estimates, marks, strict=True) if one.marks]  # fmt: skip
    if len(told) < FEWEST:
        return None
    rows = np.array([_row(*each) for each in told], dtype=float)
    errors, inside, width, chance, passed = rows.T
    luck = lucks(chance, np.random.default_rng(seed))
    many, cover = len(rows), inside.mean()
    return Found(
        many / len(marks), many, errors.mean(), errors.std() / many**0.5, cover, (cover * (1 - cover) / many) ** 0.5,
        ece(chance, passed) - luck.mean(), luck.std(), width.mean(), float((errors**2).mean() ** 0.5),
    )  # fmt: skip


def _row(marks, pass_mark: int, mark: int) -> tuple[float, ...]:  # noqa: ANN001
    low, high = marks.between(0.9)
    return marks.mean - mark, low <= mark <= high, high - low, marks.at_least(pass_mark), mark >= pass_mark


def ece(chance: np.ndarray, hit: np.ndarray) -> float:
    """The mean distance between what was said and what came, over ten bins of equal count."""
    bins = np.array_split(np.argsort(chance, kind="stable"), BINS)
    return float(sum(len(one) * abs(chance[one].mean() - hit[one].mean()) for one in bins) / len(chance))


def lucks(chance: np.ndarray, dice: np.random.Generator) -> np.ndarray:
    """That error in runs in which everything came just as often as was said."""
    return np.array([ece(chance, (dice.random(len(chance)) < chance).astype(int)) for _ in range(RUNS)])
