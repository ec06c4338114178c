"""The plan to the exam: what fits, what does not, what comes when, and the road after it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta
from itertools import accumulate

from quizzer.blocks.page import Block, Only, Page
from quizzer.blocks.plots import Column, Columns
from quizzer.blocks.text import DataTable, Gap, Heading, Paragraph, do
from quizzer.blocks.words import DECIDES, capital, count, day_words, minutes_words
from quizzer.figures import decimals
from quizzer.schedule.planning import NEW_MINUTES, REVIEW_MINUTES, DayPlan, Road
from quizzer.values import NamedTuple
from quizzer.workflows.forecast.plan import Plan, RoadAhead
from quizzer.workflows.study.keeping import ROAD_MINUTES, ROAD_TOPICS
from quizzer.workflows.study.pace import FEWEST, Pace

_DAYS_SHOWN = 10  # on a screen; paper has room for all
_MOST_WEEKS = 20  # shown; a longer way is shown by month
_LONG_DAY = 240  # minutes of study: nobody plans more


class Load(NamedTuple):
    """A week or a month by name, with its study days."""

    name: str
    days: Sequence[DayPlan]


def ahead_page(found: Plan | RoadAhead) -> Page:
    """The plan to an exam, or what lies ahead without one."""
    return _plan_page(found) if isinstance(found, Plan) else _road_page(found)


def _plan_page(plan: Plan) -> Page:
    """What fits, the load of the weeks, what is left out, the days, and the road after the exam."""
    ahead = (*_left(plan), *_loads(plan), *_days(plan)) if plan.days else ()
    foot = "The plan takes every answer for a right one: what goes wrong comes back earlier."
    blocks = (*_fit(plan), *ahead, *_road(plan), Gap(), Paragraph(f"{foot} {DECIDES}", "key"))
    return Page(f"Plan: {plan.trainee.name}", blocks, f"exam {day_words(plan.exam, plan.today)}")


def _road_page(found: RoadAhead) -> Page:
    """With no exam ahead: the next days of who learns daily, what a session a week keeps, how to plan to an exam."""
    beside = "the exam has passed" if found.trainee.exam else "no exam is set"
    blocks = (
        *_daily(found),
        *(_keeping(found) if found.road.kept or not found.days else ()),
        Paragraph(("A plan to an exam: ", do("plan", exam="14 March"), ".")),
        Paragraph(DECIDES, "key"),
    )
    return Page(f"Plan: {found.trainee.name}", blocks, beside)


def _daily(found: RoadAhead) -> Iterator[Block]:
    if found.days:
        yield Paragraph(f"{capital(minutes_words(found.minutes))} a day: what comes back, and what is new.")
        yield _table("The next days", found.days)


def _keeping(found: RoadAhead) -> Iterator[Block]:
    if found.days:
        yield Heading("For whoever stops learning daily")
    yield from _weekly(found.road, found.first, found.last)
    yield Gap()
    yield Paragraph((do("study", keep=bool(found.days)), " is that session."))


def _fit(plan: Plan) -> Iterator[Block]:
    yield Paragraph(fit_words(plan))
    if plan.days:
        yield Paragraph(pace_words(plan.pace))
    if plan.skipped:
        days = ", ".join(f"{_day(day)} ({name})" for day, name in plan.skipped)
        yield Paragraph(f"{days}.", lead="No study on holidays (England and Wales)")
    yield Gap()


def fit_words(plan: Plan) -> str:
    """What the minutes bring."""
    if not plan.days:
        return "No study day is left before the exam: rest, and look once more at what is safety-critical."
    return (
        f"{count(len(plan.days), 'study day')} of {minutes_words(plan.minutes)}. From nothing, a question takes about "
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


def _left(plan: Plan) -> Iterator[Block]:
    yield Paragraph(short_words(plan) or "Everything fits.", "key")
    if left := [topic for topic in plan.topics if topic.left]:
        rows = [
            [topic.name, f"{topic.left} of {topic.left + topic.taken}", f"{decimals(topic.marks, 1)}"] for topic in left
        ]
        yield DataTable("Left out", ["Topic", "Questions left out", "Marks of the paper"], rows, right=[2])


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


def _loads(plan: Plan) -> Iterator[Block]:
    name, loads = loads_of(plan)
    minutes = [sum(day.minutes for day in load.days) for load in loads]
    met = accumulate((sum(day.new for day in load.days) for load in loads), initial=plan.met)
    yield Columns(
        f"Minutes of study by {name}",
        [Column(load.name, f"{spent:.0f} min", spent) for load, spent in zip(loads, minutes, strict=True)],
    )
    yield Paragraph(f"What a {name} leaves free is for what goes wrong, and for a mock paper.")
    yield Columns(
        f"Questions met by the end of each {name}, of {plan.wanted} that the paper may ask",
        [Column(load.name, str(n), n) for load, n in zip(loads, [*met][1:], strict=True)],
    )


def loads_of(plan: Plan) -> tuple[str, list[Load]]:
    """The study days by week, or by month where there are many weeks; and which of them it is."""
    weeks = _parted(plan.days, lambda day: day - timedelta(days=day.weekday()))
    if len(weeks) <= _MOST_WEEKS:
        return "week", [Load(f"{week.day} {week:%b}", days) for week, days in weeks.items()]
    months = _parted(plan.days, lambda day: day.replace(day=1))
    return "month", [Load(f"{month:%b %Y}", days) for month, days in months.items()]


def _parted(days: Sequence[DayPlan], start: Callable[[date], date]) -> dict[date, list[DayPlan]]:
    parts: dict[date, list[DayPlan]] = defaultdict(list)
    for day in days:
        parts[start(day.day)].append(day)
    return parts


def _days(plan: Plan) -> Iterator[Block]:
    """The days up to the last one with anything to do; the next few on a screen."""
    busy = [at for at, day in enumerate(plan.days) if day.reviews or day.new or day.over]
    days = plan.days[: busy[-1] + 1] if busy else ()
    if days:
        yield Only(("terminal",), [_table("The next days", days[:_DAYS_SHOWN])])
        yield Only(("paper", "web"), [_table(count(len(plan.days), "study day"), days)])
    if days and len(days) < len(plan.days):
        yield Paragraph(f"The last {count(len(plan.days) - len(days), 'day')} of them are free.")


def _table(title: str, days: Sequence[DayPlan]) -> DataTable:
    rows = [
        [f"{day.day:%a} {_day(day.day)}", str(day.reviews), str(day.new), f"{day.minutes:.0f}", str(day.over)]
        for day in days
    ]
    return DataTable(title, ["Day", "Again", "New", "Minutes", "Must wait"], rows, right=[1, 2, 3, 4])


def _road(plan: Plan) -> Iterator[Block]:
    """The weekly sessions after the exam."""
    yield Heading("After the exam")
    yield from _weekly(plan.road, plan.road_first, plan.road_last)


def _weekly(road: Road, first: date, last: date) -> Iterator[Block]:
    """What a session a week keeps alive, and what is better parked."""
    yield Paragraph(
        f"One session of {ROAD_MINUTES:g} minutes a week from {_day(first)} until {last:%b %Y} "
        f"keeps {', '.join(ROAD_TOPICS)} alive for the return: {road.sessions} sessions, {road.kept} of the questions "
        "met so far, reckoned by due day, also where the session itself goes by gain."
    )
    if road.parked:
        yield Paragraph(
            f"More than three sessions' work waits at times (up to {road.backlog} questions): parking {road.parked} of "
            "them keeps the others better than spreading the time over all."
        )


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
