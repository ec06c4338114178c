"""The calendar file of a plan."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime

from quizzer.blocks.words import DECIDES, minutes_words
from quizzer.render.calendars import Event, calendar
from quizzer.store import Trainee
from quizzer.workflows.forecast.plan import Plan, RoadAhead
from quizzer.workflows.study.keeping import ROAD_MINUTES, ROAD_TOPICS


def calendar_ahead(found: Plan | RoadAhead, now: datetime) -> str:
    """The days of a plan, or of the road ahead without one."""
    return calendar_of(found, now) if isinstance(found, Plan) else road_calendar(found, now)


def calendar_of(plan: Plan, now: datetime) -> str:
    """Each study day with what it holds, the exam, and the weekly sessions after it."""
    exam = Event(f"exam-{plan.trainee.id}", plan.exam, "Exam", DECIDES)
    return calendar([*_days(plan), exam, _weekly(plan.trainee, plan.road_first, plan.road_last)], now)


def road_calendar(found: RoadAhead, now: datetime) -> str:
    """The next days of somebody with no exam ahead who learns daily, or the weekly sessions of who does not."""
    return calendar([*_days(found)] if found.days else [_weekly(found.trainee, found.first, found.last)], now)


def _days(found: Plan | RoadAhead) -> Iterator[Event]:
    for day in found.days:
        name = f"study-{found.trainee.id}-{day.day.isoformat()}"
        holds = f"{day.reviews} again, {day.new} new"
        yield Event(name, day.day, f"Study {minutes_words(found.minutes)}", holds)


def _weekly(trainee: Trainee, first: date, last: date) -> Event:
    title, topics = f"Keep alive: {ROAD_MINUTES:g} minutes", ", ".join(ROAD_TOPICS)
    return Event(f"road-{trainee.id}", first, title, topics, last)
