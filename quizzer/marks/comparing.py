"""Forms beside each other: what each form's people scored, and how far two forms differ beyond chance."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

from quizzer.distributions import t_value
from quizzer.marks.answers import Sheet
from quizzer.marks.intervals import ConfidenceInterval

FEWEST = 5  # scripts of a form before its mean is set beside another


class FormFigures(NamedTuple):
    """One form's marks, and its mean less that of all the other forms; None where there are too few to say.

    In marks, or in hundredths of its questions where the forms do not all count as many.
    """

    form: str
    people: int
    questions: int
    mean: float
    deviation: float | None
    difference: float | None
    interval: ConfidenceInterval | None


def compare(sheets: Sequence[Sheet]) -> tuple[FormFigures, ...]:
    """Every form that was sat, by name, with Welch's interval of its difference from the others together.

    The forms had different people: a difference may be theirs. Nothing is equated here.
    Source: B. L. Welch, Biometrika 34 (1947) 28.
    """
    questions = {each.form: len(each.answers) for each in sheets}
    alike = len(set(questions.values())) == 1
    marks: dict[str, list[float]] = {}
    for each in sheets:
        marks.setdefault(each.form, []).append(each.mark if alike else 100 * each.mark / questions[each.form])
    found = []
    for form in sorted(marks):
        others = [mark for other, each in marks.items() if other != form for mark in each]
        found.append(_figures(form, questions[form], marks[form], others))
    return tuple(found)


def difference(one: Sequence[float], other: Sequence[float]) -> tuple[float, ConfidenceInterval] | None:
    """The difference of two means with its 95 % interval; None where either has fewer than two or nothing varies."""
    if min(len(one), len(other)) < 2:
        return None
    a, b = _variance(one) / len(one), _variance(other) / len(other)
    if not a + b:
        return None
    freedom = (a + b) ** 2 / (a * a / (len(one) - 1) + b * b / (len(other) - 1))
    apart, half = _mean(one) - _mean(other), t_value(0.975, freedom) * sqrt(a + b)
    return apart, ConfidenceInterval(apart - half, apart + half)


def _figures(form: str, questions: int, marks: Sequence[float], others: Sequence[float]) -> FormFigures:
    enough = len(marks) >= FEWEST and len(others) >= FEWEST
    found = difference(marks, others) if enough else None
    deviation = sqrt(_variance(marks)) if len(marks) > 1 else None
    apart, interval = found or (None, None)
    return FormFigures(form, len(marks), questions, _mean(marks), deviation, apart, interval)


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


def _variance(values: Sequence[float]) -> float:
    """Dividing by one fewer than the values: the people are a sample of those a form might have met."""
    mean = _mean(values)
    return sum((value - mean) ** 2 for value in values) / (len(values) - 1)
