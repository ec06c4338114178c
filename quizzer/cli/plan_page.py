"""The screen of `quizzer plan`."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta

from quizzer.cli.feedback_page import day_words
from quizzer.cli.page import Page
from quizzer.cli.ready_page import DECIDES
from quizzer.cli.text_plots import bar
from quizzer.schedule.planning import NEW_MINUTES, REVIEW_MINUTES, DayPlan
from quizzer.workflows.pace import FEWEST, Pace
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
    page.text(fit_words(plan))
    page.text(pace_words(plan.pace))
    if plan.skipped:
        days = ", ".join(f"{day.day} {day:%b} ({name})" for day, name in plan.skipped)
        page.text(f"No study on holidays (England and Wales): {days}. --every-day studies on them too.", hang=2)
    page.gap()


def fit_words(plan: Plan) -> str:
    """What the minutes bring."""
    return (
        f"{len(plan.days)} study days of {plan.minutes:g} minutes. From nothing, a question takes about "
        f"{plan.each:.1f} minutes in all, over several days, until four in five such questions are right: there is "
        f"time for about {plan.capacity}. Counting what has been learnt, {plan.taken} of the {plan.wanted} that the "
        "paper may ask fit."
    )


def pace_words(pace: Pace) -> str:
    """Whose times the plan reckons with.

    >>> pace_words(Pace(1.0, 0.0, 12))[:67]
    'Reckoned with usual times: 40 seconds for an answer that is known, '
    """
    known, new = f"{REVIEW_MINUTES * 60:.0f}", f"{NEW_MINUTES * 60:.0f}"
    if not pace.own:
        return (
            f"Reckoned with usual times: {known} seconds for an answer that is known, {new} for one that is new or "
            f"wrong, with its explanation; from {FEWEST} timed answers on it is with your own ({pace.timed} so far)."
        )
    return (
        f"Reckoned with your own times: the last {pace.timed} timed answers took about {pace.seconds:.0f} seconds each "
        f"with the explanation, {pace.factor:.2f} times what is usual ({known} known, {new} new or wrong)."
    )


def _add_left(page: Page, plan: Plan) -> None:
    left = [topic for topic in plan.topics if topic.left]
    if not left:
        page.text("Everything fits.")
        page.gap()
        return
    page.text(f"{short_words(plan)} Left out:")
    for topic in left[:8]:
        of = f"{topic.left} of {topic.left + topic.taken} questions"
        page.text(f"{topic.name}: {of}, {topic.marks:.1f} marks of the paper", indent=2, hang=4)
    page.gap()


def short_words(plan: Plan) -> str:
    """How many questions do not fit, and what would be needed; empty where all fit."""
    if plan.taken == plan.wanted:
        return ""
    needed = plan.minutes * plan.wanted / max(1, plan.taken)
    return (
        f"The minutes are short: {plan.wanted - plan.taken} questions are left out, those worth least for their time. "
        f"To fit all, about {needed:.0f} minutes a day would be needed."
    )


def _add_days(page: Page, plan: Plan) -> None:
    page.text("The next days:")
    for day in plan.days[:_DAYS_SHOWN]:
        wait = f", {day.over} wait" if day.over else ""
        page.lines.append(f"  {day.day:%a} {day.day.day:>2} {day.day:%b}  {day.reviews:>3} due, {day.new:>3} new, "
                          f"{day.minutes:>3.0f} min{wait}")  # fmt: skip
    page.gap()


def _add_weeks(page: Page, plan: Plan) -> None:
    weeks = {week: sum(day.minutes for day in days) for week, days in weeks_of(plan).items()}
    most = max(weeks.values(), default=0.0)
    page.text("Minutes by week:")
    for week, minutes in weeks.items():
        plot = "" if page.look.plain else "  " + bar(minutes, most, 40)
        page.lines.append(f"  from {week.day:>2} {week:%b}  {minutes:>4.0f} min{plot}".rstrip())
    page.text("What a week leaves free is for what goes wrong, and for a mock paper.")
    page.gap()


def weeks_of(plan: Plan) -> dict[date, list[DayPlan]]:
    """The study days by the Monday of their week."""
    weeks: dict[date, list[DayPlan]] = defaultdict(list)
    for day in plan.days:
        weeks[day.day - timedelta(days=day.day.weekday())].append(day)
    return weeks


def _add_road(page: Page, plan: Plan) -> None:
    page.text("After the exam", style="bold")
    for words in road_words(plan):
        page.text(words)


def road_words(plan: Plan) -> list[str]:
    """The weekly sessions after the exam, and what is better parked."""
    road = plan.road
    sessions = (
        f"One session of {ROAD_MINUTES:g} minutes a week from {plan.road_first.day} {plan.road_first:%b %Y} until "
        f"{plan.road_last:%b %Y} keeps {', '.join(ROAD_TOPICS)} alive for the return: {road.sessions} sessions, "
        f"{road.kept} of the questions met so far, by due day."
    )
    if not road.parked:
        return [sessions]
    parked = (
        f"More than three sessions' work waits at times (up to {road.backlog} questions): parking {road.parked} of "
        "them keeps the others better than spreading the time over all."
    )
    return [sessions, parked]
