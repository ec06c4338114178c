"""The plan to an exam: what is due when, what the minutes can bring, what has to be left out, and the road after."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Sequence
from datetime import date, timedelta
from math import fsum

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.listing import Listed
from quizzer.schedule import Aims, Fresh, Standing
from quizzer.schedule.pacing import MINUTES, Clock
from quizzer.schedule.planning import MINUTES_A_QUESTION, DayPlan, Road, Start, long_road, sessions, study_days
from quizzer.store import Answered, Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.forecast.holidays import holidays
from quizzer.workflows.study import order_by_gain as gaining
from quizzer.workflows.study.aims import aims_of, history_of
from quizzer.workflows.study.keeping import ROAD_DAYS, ROAD_MINUTES, is_kept, keeps_alive
from quizzer.workflows.study.order_by_gain import LAST, gains_ahead
from quizzer.workflows.study.pace import Pace, pace_of
from quizzer.workflows.world import World

ROAD_MONTHS = 24
DAYS_AHEAD = 14  # of somebody who learns daily with no exam to plan to


class TopicShare(NamedTuple):
    """A topic in the plan: entries met before the exam, entries left out, and the marks these stand for."""

    name: str
    taken: int
    left: int
    marks: float


class Plan(NamedTuple):
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


class RoadAhead(NamedTuple):
    """What lies before somebody who has no exam ahead: the weekly sessions from `first` to `last`.

    Of somebody who learns daily, `days` are the next ones, of so many `minutes`; else there are none.
    """

    trainee: Trainee
    today: date
    road: Road
    first: date
    last: date
    minutes: float
    days: tuple[DayPlan, ...]


def ahead_of(
    world: World,
    trainee: Trainee,
    blueprint: Blueprint,
    exam: date | None,
    minutes: float | None,
    weekdays: Collection[int],
    *,
    skip: bool = True,
) -> Plan | RoadAhead:
    """The plan to the exam day said, or to their own; with none ahead, the weekly sessions and what comes before."""
    exam = exam or trainee.exam
    length = minutes or trainee.minutes or MINUTES
    if exam is None or exam < world.now().date():
        daily = minutes is not None or not keeps_alive(world, trainee)
        return road_for(world, trainee, blueprint, length, weekdays, daily=daily)
    return plan_for(world, trainee, blueprint, exam, length, weekdays, skip=skip)


def road_for(
    world: World, trainee: Trainee, blueprint: Blueprint, minutes: float, weekdays: Collection[int], *, daily: bool
) -> RoadAhead:
    """The weekly sessions of one person from today on; before them, where they learn `daily`, the next days."""
    today, listed = world.now().date(), world.shelf.listed()
    known = {entry.id for entry in listed}
    standings = [standing for standing in world.standings(trainee.id) if standing.entry in known]
    factor = pace_of(world.store.reviews(trainee.id), world.now()).factor
    days: list[DayPlan] = []
    if daily:
        start, _ = _start(world, listed, blueprint, standings, world.answers(trainee.id, LAST))
        ahead = study_days(today, today + timedelta(days=DAYS_AHEAD), weekdays)
        days = [day for day, _ in sessions(start, ahead, None, Clock(60 * minutes, factor), lambda *_: None)]
    last = _road_end(today)
    return RoadAhead(trainee, today, _road(standings, today, last, factor), today, last, minutes, tuple(days))


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
    listed = world.shelf.listed()
    known = {entry.id for entry in listed}
    standings = [standing for standing in world.standings(trainee.id) if standing.entry in known]
    pace = pace_of(world.store.reviews(trainee.id), world.now())
    answered = world.answers(trainee.id, LAST)
    start, aims = _start(world, listed, blueprint, standings, answered)
    gains = gains_ahead(world, trainee, answered, gaining.Horizon(exam, minutes))
    planned = list(sessions(start, days, exam, Clock(60 * minutes, pace.factor), gains))
    met = {standing.entry for standing in standings}
    reached = met | {one.entry for _, asked in planned for one in asked}
    wanted = [entry for entry in listed if aims.weights.get(entry.id)]
    first = exam + timedelta(days=ROAD_DAYS)
    last = _road_end(first)
    return Plan(
        trainee,
        today,
        exam,
        minutes,
        pace,
        MINUTES_A_QUESTION * pace.factor,
        tuple(day for day, _ in planned),
        int(len(days) * minutes / pace.factor / MINUTES_A_QUESTION),
        sum(entry.id in met for entry in wanted),
        len(wanted),
        sum(entry.id in reached for entry in wanted),
        _by_topic(wanted, reached, aims, blueprint.questions),
        tuple(item for item in closed.items() if item[0].weekday() in weekdays),
        _road(standings, first, last, pace.factor),
        first,
        last,
    )


def _road_end(first: date) -> date:
    return first + timedelta(days=round(ROAD_MONTHS * 365.25 / 12))


def _road(standings: Sequence[Standing], first: date, last: date, factor: float) -> Road:
    return long_road([one for one in standings if is_kept(one.entry)], first, last, ROAD_MINUTES / factor)


def _start(
    world: World,
    listed: Sequence[Listed],
    blueprint: Blueprint,
    standings: Sequence[Standing],
    answered: Sequence[Answered],
) -> tuple[Start, Aims]:
    """Where the plan begins, as a session of today would."""
    met = {standing.entry for standing in standings}
    fresh = [Fresh(one.id, one.topic, one.safety_critical) for one in listed if one.id not in met]
    history = history_of(answered, world.now().date())
    aims = aims_of(blueprint, listed)
    return Start(standings, fresh, aims, history), aims


def _by_topic(wanted: Sequence[Listed], reached: Collection[str], aims: Aims, questions: int) -> tuple[TopicShare, ...]:
    """Topics by the marks left out, most first."""
    whole = fsum(aims.weights.values())
    marks = {entry.id: aims.weights[entry.id] * questions / whole for entry in wanted}
    fits = Counter(entry.topic for entry in wanted if entry.id in reached)
    out = Counter(entry.topic for entry in wanted if entry.id not in reached)
    lost: defaultdict[str, list[float]] = defaultdict(list)
    for entry in wanted:
        lost[entry.topic].append(0.0 if entry.id in reached else marks[entry.id])
    shares = [TopicShare(topic, fits[topic], out[topic], fsum(lost[topic])) for topic in fits | out]
    return tuple(sorted(shares, key=lambda share: (-share.marks, share.name)))
