"""The screen of `quizzer plan`."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta

from quizzer.cli.feedback_page import day_words
from quizzer.cli.page import Page
from quizzer.cli.ready_page import DECIDES
from quizzer.cli.text_plots import bar
from quizzer.schedule.planning import MINUTES_A_QUESTION
from quizzer.workflows.plan import ROAD_MINUTES, ROAD_TOPICS, Plan

_DAYS_SHOWN = 10


def add_plan(page: Page, plan: Plan) -> None:
    """What fits, what does not, what comes when, and the road after the exam."""
    page.heading(f"Plan: {plan.trainee.name}", f"exam {day_words(plan.exam, plan.today)}")
    _add_fit(page, plan)
    _add_left(page, plan)
    _add_days(page, plan)
    _add_weeks(page, plan)
    _add_road(page, plan)
    page.gap()
    page.text(f"The plan takes every answer for a right one: what goes wrong comes back earlier. {DECIDES}")


def _add_fit(page: Page, plan: Plan) -> None:
    page.text(
        f"{len(plan.days)} study days of {plan.minutes:g} minutes. At {MINUTES_A_QUESTION:g} minutes a question in all "
        f"that brings about {plan.capacity} questions from nothing to 80 %; counting what has been learnt, "
        f"{plan.taken} of the {plan.wanted} that the paper may ask."
    )
    if plan.skipped:
        days = ", ".join(f"{day.day} {day:%b} ({name})" for day, name in plan.skipped)
        page.text(f"No study on holidays (England and Wales): {days}. --every-day studies on them too.", hang=2)
    page.gap()


def _add_left(page: Page, plan: Plan) -> None:
    left = [topic for topic in plan.topics if topic.left]
    if not left:
        page.text("Everything fits.")
        page.gap()
        return
    needed = plan.minutes * plan.wanted / max(1, plan.taken)
    page.text(
        f"The minutes are short: {plan.wanted - plan.taken} questions are left out, those worth least for their time. "
        f"To fit all, about {needed:.0f} minutes a day would be needed. Left out:"
    )
    for topic in left[:8]:
        of = f"{topic.left} of {topic.left + topic.taken} questions"
        page.text(f"{topic.name}: {of}, {topic.marks:.1f} marks of the paper", indent=2, hang=4)
    page.gap()


def _add_days(page: Page, plan: Plan) -> None:
    page.text("The next days:")
    for day in plan.days[:_DAYS_SHOWN]:
        wait = f", {day.over} wait" if day.over else ""
        page.lines.append(f"  {day.day:%a} {day.day.day:>2} {day.day:%b}  {day.reviews:>3} due, {day.new:>3} new, "
                          f"{day.minutes:>3.0f} min{wait}")  # fmt: skip
    page.gap()


def _add_weeks(page: Page, plan: Plan) -> None:
    weeks: dict[date, float] = defaultdict(float)
    for day in plan.days:
        weeks[day.day - timedelta(days=day.day.weekday())] += day.minutes
    most = max(weeks.values(), default=0.0)
    page.text("Minutes by week:")
    for week, minutes in weeks.items():
        plot = "" if page.look.plain else "  " + bar(minutes, most, 40)
        page.lines.append(f"  from {week.day:>2} {week:%b}  {minutes:>4.0f} min{plot}".rstrip())
    page.text("What a week leaves free is for what goes wrong, and for a mock paper.")
    page.gap()


def _add_road(page: Page, plan: Plan) -> None:
    road = plan.road
    page.text("After the exam", style="bold")
    page.text(
        f"One session of {ROAD_MINUTES:g} minutes a week from {plan.road_first.day} {plan.road_first:%b %Y} until "
        f"{plan.road_last:%b %Y} keeps {', '.join(ROAD_TOPICS)} alive for the return: {road.sessions} sessions, "
        f"{road.kept} of the questions met so far, by due day."
    )
    if road.parked:
        page.text(
            f"More than three sessions' work waits at times (up to {road.backlog} questions): parking {road.parked} of "
            "them keeps the others better than spreading the time over all."
        )
