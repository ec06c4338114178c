"""What the days up to an exam can hold, and the long road after it. Pure.

About five and a half minutes in all bring a question to a recall of 80 % (a simulation of ours in two models of
memory). A plan takes every answer for a right one: what goes wrong comes back earlier and takes its place.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from quizzer.schedule.memory import Memory, is_due, next_memory, worth_reviewing
from quizzer.schedule.quality import Confidence, quality

MINUTES_A_QUESTION: Final = 5.5
REVIEW_MINUTES, NEW_MINUTES = 40 / 60, 75 / 60
PARKED_ABOVE: Final = 3  # sessions of backlog from which entries are better parked
_PASS: Final = quality(True, Confidence.FAIRLY_SURE)
_LONGEST = 800  # days that a plan looks ahead


@dataclass(frozen=True, slots=True)
class DayPlan:
    """One study day: reviews due, new questions, and the minutes both take. `over` reviews had to wait."""

    day: date
    reviews: int
    new: int
    minutes: float
    over: int


@dataclass(frozen=True, slots=True)
class Wanted:
    """An entry that the paper may ask.

    `worth` is its weight times what is still unknown of it, `minutes` what it still costs; `met` tells whether it was
    asked before.
    """

    entry: str
    topic: str
    weight: float
    worth: float
    minutes: float
    met: bool


@dataclass(frozen=True, slots=True)
class Road:
    """The weekly sessions after an exam: how many, the entries kept alive and those parked, the largest backlog."""

    sessions: int
    kept: int
    parked: int
    backlog: int


def study_days(today: date, exam: date, weekdays: Collection[int], closed: Collection[date] = ()) -> list[date]:
    """The days of study from `today` to the day before the exam: these weekdays (Monday is 0), without closed ones."""
    days = (today + timedelta(days=n) for n in range(min((exam - today).days, _LONGEST)))
    return [day for day in days if day.weekday() in weekdays and day not in closed]


def minutes_left(memory: Memory | None) -> float:
    """Minutes an entry still needs; each answer since its last restart has brought it a minute nearer, down to one.

    >>> minutes_left(None)
    5.5
    """
    return MINUTES_A_QUESTION if memory is None else max(1.0, MINUTES_A_QUESTION - memory.repetition)


def affordable(wanted: Iterable[Wanted], minutes: float) -> tuple[list[Wanted], list[Wanted]]:
    """The entries that fit into the minutes, those of most worth for a minute first, and those left out."""
    taken: list[Wanted] = []
    left: list[Wanted] = []
    for one in sorted(wanted, key=lambda each: (-each.worth / each.minutes, each.entry)):
        fits = one.minutes <= minutes + 1e-9
        (taken if fits else left).append(one)
        minutes -= one.minutes if fits else 0
    return taken, left


def day_plans(
    memories: Iterable[Memory], new: int, days: Sequence[date], exam: date, minutes: float
) -> tuple[DayPlan, ...]:
    """What each study day holds: reviews by due day first, new questions in the time that is left."""
    line = sorted(memories, key=lambda memory: memory.due)
    plans = []
    for day in days:
        due = [memory for memory in line if is_due(memory, day) and worth_reviewing(memory, exam, day)]
        reviews = due[: int(minutes / REVIEW_MINUTES)]
        room = minutes - len(reviews) * REVIEW_MINUTES
        fresh = min(new, int(room / NEW_MINUTES)) if len(reviews) == len(due) else 0
        new -= fresh
        done = set(map(id, reviews))
        line = [memory for memory in line if id(memory) not in done]
        line += [next_memory(memory, _PASS, day) for memory in (*reviews, *[None] * fresh)]
        line.sort(key=lambda memory: memory.due)
        spent = len(reviews) * REVIEW_MINUTES + fresh * NEW_MINUTES
        plans.append(DayPlan(day, len(reviews), fresh, spent, len(due) - len(reviews)))
    return tuple(plans)


def long_road(memories: Iterable[Memory], first: date, last: date, minutes: float) -> Road:
    """Weekly sessions from `first` to `last`, by due day and never by what is relatively most overdue.

    Where more than three sessions' work waits, the entries due last are parked: all others are better kept so.
    """
    room = int(minutes / REVIEW_MINUTES)
    line = sorted(memories, key=lambda memory: memory.due)
    sessions = parked = backlog = 0
    for week in range((last - first).days // 7 + 1):
        day = first + timedelta(weeks=week)
        due = [memory for memory in line if is_due(memory, day)]
        backlog = max(backlog, len(due))
        dropped = due[PARKED_ABOVE * room :]
        rest = [memory for memory in line if not is_due(memory, day)]
        line = [*due[room : PARKED_ABOVE * room], *rest, *(next_memory(memory, _PASS, day) for memory in due[:room])]
        line.sort(key=lambda memory: memory.due)
        parked += len(dropped)
        sessions += 1
    return Road(sessions, len(line), parked, backlog)
