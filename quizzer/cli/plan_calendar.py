"""The calendar file of `plan`."""

from __future__ import annotations

from datetime import date, datetime

from quizzer.blocks.words import DECIDES, minutes_words
from quizzer.render.calendars import Event, calendar
from quizzer.store import Trainee
from quizzer.workflows.forecast.plan import Plan, RoadAhead
from quizzer.workflows.study.keeping import ROAD_MINUTES, ROAD_TOPICS


def calendar_of(plan: Plan, now: datetime) -> str:
    """Each study day with what it holds, the exam, and the weekly sessions after it."""
    who = plan.trainee.id
    days = [
        Event(
            f"study-{who}-{day.day.isoformat()}",
            day.day,
            f"Study {minutes_words(plan.minutes)}",
            f"{day.reviews} again, {day.new} new",
        )
        for day in plan.days
    ]
    exam = Event(f"exam-{who}", plan.exam, "Exam", DECIDES)
    return calendar([*days, exam, _weekly(plan.trainee, plan.road_first, plan.road_last)], now)


def road_calendar(found: RoadAhead, now: datetime) -> str:
    """The weekly sessions of somebody with no exam ahead."""
    return calendar([_weekly(found.trainee, found.first, found.last)], now)


def _weekly(trainee: Trainee, first: date, last: date) -> Event:
    title, topics = f"Keep alive: {ROAD_MINUTES:g} minutes", ", ".join(ROAD_TOPICS)
    return Event(f"road-{trainee.id}", first, title, topics, last)
