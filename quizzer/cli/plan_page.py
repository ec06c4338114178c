"""The screen of `quizzer plan`."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from quizzer.cli.feedback_page import day_words
from quizzer.cli.ready_page import DECIDES
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.plots import bar
from quizzer.schedule.planning import NEW_MINUTES, REVIEW_MINUTES, DayPlan
from quizzer.workflows.pace import FEWEST, Pace
from quizzer.workflows.plan import ROAD_MINUTES, ROAD_TOPICS, Plan
from quizzer.workflows.report_words import count

_DAYS_SHOWN = 10
_MOST_WEEKS = 20  # shown; a longer way is shown by month
_LONG_DAY = 240  # minutes of study: nobody plans more


class Load(NamedTuple):
    """A week or a month by name, with its study days."""

    name: str
    days: Sequence[DayPlan]


def add_plan(page: Canvas, plan: Plan) -> None:
    """What fits, what does not, what comes when, and the road after the exam."""
    page.heading(f"Plan: {plan.trainee.name}", f"exam {day_words(plan.exam, plan.today)}")
    _add_fit(page, plan)
    if plan.days:
        _add_left(page, plan)
        _add_days(page, plan)
        _add_loads(page, plan)
    _add_road(page, plan)
    page.gap()
    page.text(f"The plan takes every answer for a right one: what goes wrong comes back earlier. {DECIDES}")


def _add_fit(page: Canvas, plan: Plan) -> None:
    page.text(fit_words(plan))
    if plan.days:
        page.text(pace_words(plan.pace))
    if plan.skipped:
        days = ", ".join(f"{day.day} {day:%b} ({name})" for day, name in plan.skipped)
        page.text(f"No study on holidays (England and Wales): {days}. --every-day studies on them too.", hang=2)
    page.gap()


def fit_words(plan: Plan) -> str:
    """What the minutes bring."""
    if not plan.days:
        return "No study day is left before the exam: rest, and look once more at what is safety-critical."
    return (
        f"{count(len(plan.days), 'study day')} of {plan.minutes:g} minutes. From nothing, a question takes about "
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


def _add_left(page: Canvas, plan: Plan) -> None:
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
    if plan.taken == plan.wanted or not plan.days:
        return ""
    needed = plan.minutes * plan.wanted / max(1, plan.taken)
    all_of_them = (
        f"To fit all, about {needed:.0f} minutes a day would be needed."
        if needed <= _LONG_DAY
        else "No day is long enough to fit all of them before the exam."
    )
    left = count(plan.wanted - plan.taken, "question is", "questions are")
    return f"The minutes are short: {left} left out, those worth least for their time. {all_of_them}"


def _add_days(page: Canvas, plan: Plan) -> None:
    page.text("The next days:")
    for day in plan.days[:_DAYS_SHOWN]:
        wait = f", {day.over} wait" if day.over else ""
        page.lines.append(f"  {day.day:%a} {day.day.day:>2} {day.day:%b}  {day.reviews:>3} again, {day.new:>3} new, "
                          f"{day.minutes:>3.0f} min{wait}")  # fmt: skip
    page.gap()


def _add_loads(page: Canvas, plan: Plan) -> None:
    name, loads = loads_of(plan)
    minutes = [sum(day.minutes for day in load.days) for load in loads]
    most = max(minutes)
    page.text(f"Minutes by {name}:")
    for load, spent in zip(loads, minutes, strict=True):
        plot = "" if page.look.plain else "  " + bar(spent, most, 40)
        page.lines.append(f"  {load.name:<11}  {spent:>4.0f} min{plot}".rstrip())
    page.text(f"What a {name} leaves free is for what goes wrong, and for a mock paper.")
    page.gap()


def loads_of(plan: Plan) -> tuple[str, list[Load]]:
    """The study days by week, or by month where there are many weeks; and which of them it is."""
    weeks = _parted(plan.days, lambda day: day - timedelta(days=day.weekday()))
    if len(weeks) <= _MOST_WEEKS:
        return "week", [Load(f"from {week.day:>2} {week:%b}", days) for week, days in weeks.items()]
    months = _parted(plan.days, lambda day: day.replace(day=1))
    return "month", [Load(f"{month:%b %Y}", days) for month, days in months.items()]


def _parted(days: Sequence[DayPlan], start: Callable[[date], date]) -> dict[date, list[DayPlan]]:
    parts: dict[date, list[DayPlan]] = defaultdict(list)
    for day in days:
        parts[start(day.day)].append(day)
    return parts


def _add_road(page: Canvas, plan: Plan) -> None:
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
