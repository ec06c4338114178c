"""Answers to one entry from several forms and papers taken together: how many were right, how well it tells people."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, sqrt
from typing import NamedTuple

from quizzer.marks.intervals import ConfidenceInterval, wilson
from quizzer.marks.items import correlation

FEWEST = 30  # people, before anything but the count is said of an entry


class PooledAnswer(NamedTuple):
    """One answer: the form it was given in, right (1) or not (0), and the mark on that form's other questions."""

    form: str
    right: int
    rest: int


class PooledFigures(NamedTuple):
    """People, how many were right and the range of that share; r with the rest within forms and its standard error.

    There is no r below `FEWEST` people, or where all did alike.
    """

    people: int
    right: int
    forms: int
    interval: ConfidenceInterval
    with_rest: float | None
    error: float | None


def pooled(answers: Sequence[PooledAnswer]) -> PooledFigures:
    """The figures of one or more answers.

    r is the pooled correlation within forms: each form's answers and rest marks less their means there, so that a form
    that is harder, or a group that is better, is not taken for a question that tells people apart.
    """
    people, right = len(answers), sum(one.right for one in answers)
    forms = {one.form for one in answers}
    freedom = people - len(forms) - 1
    r = _within(answers) if people >= FEWEST and freedom > 0 else None
    error = None if r is None else sqrt((1 - r * r) / freedom)
    return PooledFigures(people, right, len(forms), wilson(right, people), r, error)


def _within(answers: Sequence[PooledAnswer]) -> float | None:
    by_form: dict[str, list[PooledAnswer]] = {}
    for one in answers:
        by_form.setdefault(one.form, []).append(one)
    rights = [value for each in by_form.values() for value in _centred([one.right for one in each])]
    rests = [value for each in by_form.values() for value in _centred([one.rest for one in each])]
    return correlation(rights, rests)


def _centred(values: Sequence[int]) -> list[float]:
    mean = fsum(values) / len(values)
    return [value - mean for value in values]
