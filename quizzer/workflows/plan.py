"""The plan to an exam: what is due when, what the minutes can bring, what has to be left out, and the road after."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date, timedelta

from quizzer.bank.blueprints import Blueprint
from quizzer.schedule import Standing
from quizzer.schedule.planning import (
    MINUTES_A_QUESTION,
    DayPlan,
    Road,
    Wanted,
    affordable,
    day_plans,
    long_road,
    minutes_left,
    study_days,
)
from quizzer.store import Trainee
from quizzer.workflows.holidays import holidays
from quizzer.workflows.pace import Pace, pace_of
from quizzer.workflows.readiness import Paper
from quizzer.workflows.weakness import weak_for
from quizzer.workflows.world import World

ROAD_TOPICS = ("testing", "faults", "safety/isolation")
ROAD_MINUTES = 10.0
ROAD_MONTHS = 24


@dataclass(frozen=True, slots=True)
class TopicShare:
    """A topic in the plan: entries that fit, entries left out, and the marks that those left out stand for."""

    name: str
    taken: int
    left: int
    marks: float


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan. `capacity` is the questions the minutes could bring to 80 % from nothing; `skipped` the holidays.

    `each` is the minutes that takes a question, by the `pace` of the person. `met` counts the questions met so far.
    """

    trainee: Trainee
    today: date
    exam: date
    minutes: float
    pace: Pace
    each: float
    days: tuple[DayPlan, ...]
    capacity: int
    met: int
    wanted: int
    taken: int
    topics: tuple[TopicShare, ...]
    skipped: tuple[tuple[date, str], ...]
    road: Road
    road_first: date
    road_last: date


def plan_for(
    world: World,
    trainee: Trainee,
    blueprint: Blueprint,
    exam: date,
    minutes: float,
    weekdays: Collection[int],
    *,
    skip: bool = True,
) -> Plan:
    """The plan of one person from today to the day before the exam."""
    today = world.now().date()
    closed = holidays(today, exam) if skip else {}
    days = study_days(today, exam, weekdays, closed)
    known = {entry.id for entry in world.shelf.listed()}
    standings = [standing for standing in world.store.standings(trainee.id) if standing.entry in known]
    wanted = _wanted(world, trainee, blueprint, standings, exam)
    pace = pace_of(world.store.reviews(trainee.id), world.now())
    # Somebody twice as slow has half the time: what follows reckons in minutes of the usual pace.
    usual = minutes / pace.factor
    taken, left = affordable(wanted, len(days) * usual)
    new = sum(not one.met for one in taken)
    first = exam + timedelta(days=7)
    last = first + timedelta(days=round(ROAD_MONTHS * 365.25 / 12))
    road = [one.memory for one in standings if one.entry.startswith(tuple(topic + "/" for topic in ROAD_TOPICS))]
    return Plan(
        trainee,
        today,
        exam,
        minutes,
        pace,
        MINUTES_A_QUESTION * pace.factor,
        tuple(
            replace(each, minutes=each.minutes * pace.factor)
            for each in day_plans([one.memory for one in standings], new, days, exam, usual)
        ),
        int(len(days) * usual / MINUTES_A_QUESTION),
        sum(one.met for one in wanted),
        len(wanted),
        len(taken),
        _by_topic(taken, left),
        tuple(item for item in closed.items() if item[0].weekday() in weekdays),
        long_road(road, first, last, ROAD_MINUTES / pace.factor),
        first,
        last,
    )


def _wanted(
    world: World, trainee: Trainee, blueprint: Blueprint, standings: list[Standing], exam: date
) -> list[Wanted]:
    """The entries that the paper may ask, with their worth: weight times what would be unknown on the day."""
    listed = world.shelf.listed()
    memories = {standing.entry: standing.memory for standing in standings}
    unknown = {part.name: 1 - part.then[0] for part in weak_for(world, trainee, blueprint, exam).parts}
    weights = Paper(blueprint, listed).entry_weights(listed)
    return [
        Wanted(
            entry.id,
            entry.topic,
            weights[entry.id],
            weights[entry.id] * unknown[entry.id.rpartition("/")[0]],
            minutes_left(memories.get(entry.id)),
            entry.id in memories,
        )
        for entry in listed
        if weights.get(entry.id)
    ]


def _by_topic(taken: list[Wanted], left: list[Wanted]) -> tuple[TopicShare, ...]:
    """Topics by the marks left out, most first."""
    fits, out = Counter(one.topic for one in taken), Counter(one.topic for one in left)
    shares = [TopicShare(topic, fits[topic], out[topic], sum(one.weight for one in left if one.topic == topic))
              for topic in fits | out]  # fmt: skip
    return tuple(sorted(shares, key=lambda share: (-share.marks, share.name)))
