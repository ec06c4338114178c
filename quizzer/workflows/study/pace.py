"""How long an answer takes this person, explanation and all, set against what is usual."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from itertools import pairwise
from math import fsum
from typing import Final

from quizzer.schedule import Review
from quizzer.schedule.planning import NEW_MINUTES, REVIEW_MINUTES
from quizzer.values import NamedTuple

FEWEST: Final = 40  # timed answers below which the usual times hold
LAST: Final = 300  # timed answers that are looked at
SLOWEST, QUICKEST = 3.0, 0.4  # the bounds of a pace: beyond them it is the clock that is odd, and no plan
_LONGEST: Final = timedelta(minutes=10)  # to answer: longer means away
_BREAK: Final = timedelta(minutes=3)  # between an answer and the next question: longer is a pause, no reading
_TRIMMED: Final = 0.1  # of the quickest and of the slowest, so that neither a slip of a key nor a phone call counts


class Pace(NamedTuple):
    """`factor` times what is usual; `seconds` an answer in all, from so many `timed` answers of the person's own.

    Below `FEWEST` of them the factor is 1 and `own` False.
    """

    factor: float
    seconds: float
    timed: int

    @property
    def own(self) -> bool:
        """Whether it is the person's own pace and not the usual one."""
        return self.timed >= FEWEST


class _Timed(NamedTuple):
    seconds: float
    usual: float


def pace_of(reviews: Sequence[Review], now: datetime) -> Pace:
    """The pace of one person, from all their reviews, oldest first; those dated after `now` are left out.

    An answer takes the time from its question to the next one: thinking, the explanation, and a drill in between.
    The last answer of a session and answers of a paper have no such time, and a diagnosis played is no question.
    """
    timed = list(_timed([one for one in reviews if one.answered_at <= now + timedelta(days=1)]))[-LAST:]
    if len(timed) < FEWEST:
        return Pace(1.0, 0.0, len(timed))
    factor = _middle([one.seconds / one.usual for one in timed])
    return Pace(min(SLOWEST, max(QUICKEST, factor)), _middle([one.seconds for one in timed]), len(timed))


def _timed(reviews: Sequence[Review]) -> Iterator[_Timed]:
    answers = [one for one in reviews if not one.drill and not one.played]
    met: set[str] = set()
    for one, after in pairwise(answers):
        usual = REVIEW_MINUTES if one.right and one.entry in met else NEW_MINUTES
        met.add(one.entry)
        reading = _asked_at(after) - one.answered_at
        if one.seconds and after.seconds and _asked_at(one) >= one.answered_at - _LONGEST and _short(reading):
            yield _Timed(one.seconds + reading.total_seconds(), 60 * usual)


def _asked_at(review: Review) -> datetime:
    return review.answered_at - timedelta(seconds=review.seconds)


def _short(reading: timedelta) -> bool:
    # Seconds are kept whole, so that the next question may seem to come a moment before the answer.
    return timedelta(seconds=-1) <= reading <= _BREAK


def _middle(values: Sequence[float]) -> float:
    """The mean without the tenth at either end."""
    out = int(len(values) * _TRIMMED)
    kept = sorted(values)[out : len(values) - out]
    return fsum(kept) / len(kept)
