"""The calendar file of `plan`."""

from __future__ import annotations

from datetime import datetime

from quizzer.blocks.words import DECIDES, minutes_words
from quizzer.render.calendars import Event, calendar
from quizzer.workflows.forecast.plan import Plan
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
    title, topics = f"Keep alive: {ROAD_MINUTES:g} minutes", ", ".join(ROAD_TOPICS)
    road = Event(f"road-{who}", plan.road_first, title, topics, plan.road_last)
    return calendar([*days, exam, road], now)
