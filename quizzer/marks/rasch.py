"""Rasch's model over forms that share no question: how hard each would be for one and the same group of people. Pure.

Whoever has the ability t answers a question of difficulty b right with the chance 1 / (1 + exp(b - t)); abilities
are normal about 0 with a spread that is fitted. What is known of a difficulty before anybody answered is normal too:
that is all that links forms without a common question, and keeps an easy form from being taken for able people.
Somebody who sat two forms counts as two people, as they may have learnt in between.

Marginal likelihood by the EM algorithm: R. D. Bock and M. Aitkin, Psychometrika 46 (1981) 443. Standard errors from the
information of what was observed: T. A. Louis, J. R. Stat. Soc. B 44 (1982) 226.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any, Final, NamedTuple

NODES: Final = 21  # of the quadrature over abilities
LEAST_SPREAD: Final = 0.05
_STEPS, _NEAR = 500, 1e-5


class FormAnswers(NamedTuple):
    """The numbers of a form's questions, and a row for each person: 1 for right, 0 for wrong."""

    questions: Sequence[int]
    right: Sequence[Sequence[int]]


class Before(NamedTuple):
    """A difficulty before anybody answered, and how far that may be out: a standard deviation."""

    difficulty: float
    deviation: float


class Difficulty(NamedTuple):
    """A question's difficulty and its standard error; the share of all the people that would have it right, and its."""

    difficulty: float
    error: float
    facility: float
    facility_error: float


class RaschFit(NamedTuple):
    """The difficulties in the order of their numbers, and the spread of abilities."""

    difficulties: tuple[Difficulty, ...]
    spread: float


class _Expected(NamedTuple):
    """By question and ability, how many are expected there and how many of them were right; the mean square ability.

    `missing` is the information that is missing because abilities are not seen.
    """

    many: Any
    right: Any
    square: float
    missing: Any


def rasch(forms: Sequence[FormAnswers], before: Sequence[Before], spread: float | None = None) -> RaschFit:
    """The difficulties of one or more forms; a `spread` that is given is not fitted."""
    import numpy as np

    middle, deviation = (np.array(column, float) for column in zip(*before, strict=True))
    columns = [(np.array(form.questions), np.array(form.right, float)) for form in forms]
    found, wide = middle.copy(), spread or 1.0
    for _ in range(_STEPS):
        expected = _expected(columns, found, wide)
        better = _harder(expected, found, wide, middle, deviation)
        wider = spread or max(LEAST_SPREAD, expected.square**0.5)
        near = abs(better - found).max() < _NEAR and abs(wider - wide) < _NEAR
        found, wide = better, wider
        if near:
            break
    return RaschFit(tuple(_told(columns, found, wide, deviation)), wide)


@cache
def _abilities() -> tuple[Any, Any]:
    """Points of the standard normal distribution, and their weights."""
    import numpy as np

    points, weights = np.polynomial.hermite_e.hermegauss(NODES)
    return points, weights / weights.sum()


def _chances(difficulties: Any, spread: float) -> Any:
    """The chance of a right answer by question and ability."""
    import numpy as np

    return 1 / (1 + np.exp(difficulties[:, None] - spread * _abilities()[0]))


def _expected(columns: Sequence[tuple[Any, Any]], found: Any, spread: float, *, missing: bool = False) -> _Expected:
    import numpy as np

    many, right = np.zeros((len(found), NODES)), np.zeros((len(found), NODES))
    lost = np.zeros((len(found), len(found)) if missing else (0, 0))
    points, weights = _abilities()
    square, people = 0.0, 0
    for questions, marks in columns:
        chance = _chances(found[questions], spread)
        logs = marks @ np.log(chance) + (1 - marks) @ np.log1p(-chance) + np.log(weights)
        where = np.exp(logs - logs.max(axis=1, keepdims=True))
        where /= where.sum(axis=1, keepdims=True)
        np.add.at(many, questions, where.sum(axis=0))  # a question may be there twice
        np.add.at(right, questions, marks.T @ where)
        square += float((where @ (spread * points) ** 2).sum())
        people += len(marks)
        if missing:
            mean = where @ chance.T
            np.add.at(lost, np.ix_(questions, questions), (chance * where.sum(axis=0)) @ chance.T - mean.T @ mean)
    return _Expected(many, right, square / people, lost)


def _harder(expected: _Expected, found: Any, spread: float, middle: Any, deviation: Any) -> Any:
    """The difficulties that fit what is expected better: a step of Newton's, at most 1."""
    import numpy as np

    chance = _chances(found, spread)
    slope = (expected.many * chance - expected.right).sum(axis=1) - (found - middle) / deviation**2
    bend = (expected.many * chance * (1 - chance)).sum(axis=1) + 1 / deviation**2
    return found + np.clip(slope / bend, -1, 1)


def _told(columns: Sequence[tuple[Any, Any]], found: Any, spread: float, deviation: Any) -> list[Difficulty]:
    import numpy as np

    chance = _chances(found, spread)
    expected = _expected(columns, found, spread, missing=True)
    whole = np.diag((expected.many * chance * (1 - chance)).sum(axis=1) + 1 / deviation**2)
    errors = np.sqrt(np.diag(np.linalg.inv(whole - expected.missing)))
    weights = _abilities()[1]
    facilities, slopes = chance @ weights, (chance * (1 - chance)) @ weights
    rows = zip(found, errors, facilities, errors * slopes, strict=True)
    return [Difficulty(*map(float, row)) for row in rows]
