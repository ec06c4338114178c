"""What the days up to an exam will hold, and the long road after it: the sessions themselves, ahead of time. Pure.

About five and a half minutes in all bring a question to a recall of 80 % (a simulation of ours in two models of
memory). A plan takes every answer for a right one: what goes wrong comes back earlier and takes its place.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from typing import Final

from quizzer.schedule.aims import Aims
from quizzer.schedule.memory import Memory, is_due, next_memory, worth_reviewing
from quizzer.schedule.newcomers import Fresh
from quizzer.schedule.pacing import NEW_SECONDS, Clock, right_day, usual_seconds
from quizzer.schedule.quality import Confidence, quality
from quizzer.schedule.queue import KNOWN_SECONDS, History, Occasion, Standing, line
from quizzer.values import NamedTuple

MINUTES_A_QUESTION: Final = 5.5
REVIEW_MINUTES, NEW_MINUTES = KNOWN_SECONDS / 60, NEW_SECONDS / 60
PARKED_ABOVE: Final = 3  # sessions of backlog from which entries are better parked
_PASS: Final = quality(True, Confidence.FAIRLY_SURE)
_LONGEST = 800  # days that a plan looks ahead


class DayPlan(NamedTuple):
    """One study day: reviews, new questions, and the minutes both take. `over` due reviews had to wait."""

    day: date
    reviews: int
    new: int
    minutes: float
    over: int


class Start(NamedTuple):
    """Where a plan begins: what was met, what is new, what is studied for, and what was asked before."""

    met: Sequence[Standing]
    fresh: Sequence[Fresh]
    aims: Aims
    history: History


class Road(NamedTuple):
    """The weekly sessions after an exam: how many, the entries kept alive and those parked, the largest backlog."""

    sessions: int
    kept: int
    parked: int
    backlog: int


Gains = Callable[[date, Sequence[Standing], Sequence[Fresh], Sequence[tuple[str, date]]], Mapping[str, float] | None]


def study_days(today: date, exam: date, weekdays: Collection[int], closed: Collection[date] = ()) -> list[date]:
    """The days of study from `today` to the day before the exam: these weekdays (Monday is 0), without closed ones."""
    days = (today + timedelta(days=n) for n in range(min((exam - today).days, _LONGEST)))
    return [day for day in days if day.weekday() in weekdays and day not in closed]


def sessions(
    start: Start, days: Iterable[date], exam: date | None, clock: Clock, gains: Gains
) -> Iterator[tuple[DayPlan, list[Standing | Fresh]]]:
    """What each study day holds, in counts and in full, when every answer is right; with an `exam` or none ahead.

    `gains` is asked on each day: it is given the day, what is met and what is new then, and the answers planned so
    far.
    """
    met, fresh = {one.entry: one for one in start.met}, {one.entry: one for one in start.fresh}
    counts, dry = Counter(start.history.answers), start.history.dry
    planned: list[tuple[str, date]] = []
    for day in days:
        found = gains(day, list(met.values()), list(fresh.values()), planned)
        occasion = Occasion(day, exam, clock.left, None, start.aims, History(counts, dry))
        asked = right_day(line(list(met.values()), list(fresh.values()), occasion, found), clock)
        due = {one.entry for one in met.values() if _is_wanted(one.memory, exam, day)}
        yield _day_plan(day, asked, due, clock), asked
        new = 0
        for one in asked:
            new += fresh.pop(one.entry, None) is not None
            met[one.entry] = _passed(one, day)
            counts[one.entry] += 1
            planned.append((one.entry, day))
        dry = 0 if new else dry + 1


def _is_wanted(memory: Memory, exam: date | None, day: date) -> bool:
    return is_due(memory, day) and memory.last != day and worth_reviewing(memory, exam, day)


def _day_plan(day: date, asked: Sequence[Standing | Fresh], due: set[str], clock: Clock) -> DayPlan:
    new = sum(isinstance(one, Fresh) for one in asked)
    seconds = sum(usual_seconds(new=isinstance(one, Fresh)) for one in asked) * clock.slow
    over = len(due - {one.entry for one in asked})
    return DayPlan(day, len(asked) - new, new, seconds / 60, over)


def _passed(one: Standing | Fresh, day: date) -> Standing:
    before = None if isinstance(one, Fresh) else one.memory
    critical = one.safety_critical if isinstance(one, Fresh) else bool(one.memory.owed)
    return Standing(one.entry, one.topic, next_memory(before, _PASS, day, safety_critical=critical))


def long_road(met: Iterable[Standing], first: date, last: date, minutes: float) -> Road:
    """Weekly sessions from `first` to `last`, of what was met.

    Where more than three sessions' work waits, what comes last in the line is parked: all else is better kept so.
    """
    kept, clock = {one.entry: one for one in met}, Clock(60 * minutes)
    parked = backlog = weeks = 0
    for weeks in range(1, (last - first).days // 7 + 2):
        day = first + timedelta(weeks=weeks - 1)
        waiting = line([one for one in kept.values() if is_due(one.memory, day)], (), Occasion(day))
        backlog = max(backlog, len(waiting))
        for one in right_day(waiting, clock):
            kept[one.entry] = _passed(one, day)
        for one in waiting[PARKED_ABOVE * int(60 * minutes / KNOWN_SECONDS) :]:
            parked += kept.pop(one.entry).memory.last < day
    return Road(weeks, len(kept), parked, backlog)
