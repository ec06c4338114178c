"""How far a paper's marks can be relied on: KR-20 with its interval, KR-21, standard error, other lengths."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, sqrt
from typing import NamedTuple

from quizzer.distributions import f_value
from quizzer.marks.intervals import ConfidenceInterval

FEWEST = 10  # scripts; with fewer the interval covers nearly everything

Marks = Sequence[Sequence[int]]  # a row a person, a column a question, 1 for right


class Spread(NamedTuple):
    """Number of people, mean mark, and the deviation that the formulas of reliability are made of.

    That one divides by the number of people; `sample_deviation`, which people are told, by one fewer.
    """

    people: int
    mean: float
    deviation: float

    @property
    def sample_deviation(self) -> float | None:
        """The standard deviation of a sample; None for fewer than two people.

        >>> round(spread([2, 4, 4, 4, 5, 5, 7, 9]).sample_deviation, 3), spread([3]).sample_deviation
        (2.138, None)
        """
        return self.deviation * sqrt(self.people / (self.people - 1)) if self.people > 1 else None


def spread(totals: Sequence[float]) -> Spread:
    """The spread of marks; zeros for nobody."""
    n = len(totals)
    mean = fsum(totals) / n if n else 0.0
    return Spread(n, mean, sqrt(fsum((each - mean) ** 2 for each in totals) / n) if n else 0.0)


def kr20(marks: Marks) -> float | None:
    """Kuder and Richardson's formula 20; None where marks do not differ or there is one question.

    Source: Kuder and Richardson, Psychometrika 2 (1937) 151. Both variances divide by the number of people.
    """
    whole = spread([sum(row) for row in marks])
    questions = len(marks[0]) if marks else 0
    if questions < 2 or not whole.deviation:
        return None
    shares: list[float] = [sum(column) / whole.people for column in zip(*marks, strict=True)]
    within = fsum(share * (1 - share) for share in shares)
    return questions / (questions - 1) * (1 - within / (whole.deviation * whole.deviation))


def kr20_without(marks: Marks) -> tuple[float | None, ...]:
    """KR-20 of the paper without each question in turn."""
    return tuple(kr20([[*row[:at], *row[at + 1 :]] for row in marks]) for at in range(len(marks[0]) if marks else 0))


def kr21(questions: int, mean: float, deviation: float) -> float:
    """Kuder and Richardson's formula 21, which needs no answers, only the spread.

    >>> round(kr21(50, 43, 5), 4)
    0.7747
    """
    return questions / (questions - 1) * (1 - mean * (questions - mean) / (questions * deviation**2))


def feldt(reliability: float, people: int, questions: int, confidence: float = 0.95) -> ConfidenceInterval:
    """The interval of a KR-20. Source: L. S. Feldt, Psychometrika 30 (1965) 357.

    >>> [round(x, 4) for x in feldt(0.85, 89, 7)]
    [0.7971, 0.8932]
    """
    freedom, tail = people - 1, (1 - confidence) / 2
    return ConfidenceInterval(
        1 - (1 - reliability) * f_value(1 - tail, freedom, freedom * (questions - 1)),
        1 - (1 - reliability) * f_value(tail, freedom, freedom * (questions - 1)),
    )


def standard_error(deviation: float, reliability: float) -> float:
    """The standard error of measurement, in marks, over the whole range of marks.

    >>> round(standard_error(7.5, 0.84), 2)
    3.0
    """
    return deviation * sqrt(max(0.0, 1 - reliability))


def spearman_brown(reliability: float, times: float) -> float:
    """The reliability of a paper so many times as long.

    >>> round(spearman_brown(0.70, 2), 4)
    0.8235
    """
    return times * reliability / (1 + (times - 1) * reliability)


def times_longer(reliability: float, wanted: float) -> float:
    """How many times as long a paper would have to be for a wanted reliability.

    >>> round(times_longer(0.70, 0.80), 3)
    1.714
    """
    return wanted * (1 - reliability) / (reliability * (1 - wanted))
