"""The plan on paper: what fits, the load of the weeks, what is left out, and the days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import accumulate

from quizzer.cli.outlook_files import Sheet
from quizzer.cli.plan_page import fit_words, loads_of, pace_words, road_words, short_words
from quizzer.render.svg.plots import Plot, bars
from quizzer.render.typst.report import Block, Heading, Paragraph, Picture, Table
from quizzer.workflows.plan import Plan
from quizzer.workflows.report_words import count

_FREE = (
    "What is left free is for what goes wrong, and for a mock paper. The plan takes every answer for a right "
    "one: what goes wrong comes back earlier."
)


def plan_sheet(plan: Plan) -> Sheet:
    """The whole plan, every study day with it."""
    parts = (_fit(plan), _loads(plan), _left(plan), _days(plan), _road(plan))
    title = f"Plan of {plan.trainee.name} to the exam on {plan.exam.isoformat()}"
    return Sheet(title, plan.today.isoformat(), [block for part in parts for block in part])


def _fit(plan: Plan) -> Iterator[Block]:
    yield Paragraph(fit_words(plan))
    if not plan.days:
        return
    yield Paragraph(pace_words(plan.pace))
    if plan.skipped:
        days = ", ".join(f"{_day(day)} ({name})" for day, name in plan.skipped)
        yield Paragraph(f"No study on holidays (England and Wales): {days}.")
    yield Paragraph(short_words(plan) or "Everything fits.", bold=True)


def _loads(plan: Plan) -> Iterator[Block]:
    if not plan.days:
        return
    name, loads = loads_of(plan)
    names = [load.name.removeprefix("from ").strip() for load in loads]
    minutes = [sum(day.minutes for day in load.days) for load in loads]
    met = list(accumulate((sum(day.new for day in load.days) for load in loads), initial=plan.met))[1:]
    yield Picture(_bars(f"Minutes of study by {name}", list(zip(names, minutes, strict=True)), "min"))
    title = f"Questions met by the end of each {name}, of {plan.wanted} that the paper may ask"
    yield Picture(_bars(title, [(name, float(n)) for name, n in zip(names, met, strict=True)], "met"))
    yield Paragraph(_FREE)


def _bars(title: str, rows: list[tuple[str, float]], word: str) -> Plot:
    most = max(height for _, height in rows)
    words = "; ".join(f"{name} {height:.0f}" for name, height in rows)
    return bars(title, f"{title}: {words}.", rows, top=f"{most:.0f} {word}")


def _left(plan: Plan) -> Iterator[Block]:
    left = [topic for topic in plan.topics if topic.left]
    if left and plan.days:
        rows = [[topic.name, f"{topic.left} of {topic.left + topic.taken}", f"{topic.marks:.1f}"] for topic in left]
        yield Table("Left out", ["Topic", "Questions left out", "Marks of the paper"], rows, right=[2])


def _days(plan: Plan) -> Iterator[Block]:
    """The days up to the last one with anything to do."""
    busy = [at for at, day in enumerate(plan.days) if day.reviews or day.new or day.over]
    days = plan.days[: busy[-1] + 1] if busy else ()
    rows = [[f"{day.day:%a} {_day(day.day)}", str(day.reviews), str(day.new), f"{day.minutes:.0f}", str(day.over)]
            for day in days]  # fmt: skip
    if rows:
        yield Heading(count(len(plan.days), "study day"))
        yield Table("", ["Day", "Again", "New", "Minutes", "Must wait"], rows, right=[1, 2, 3, 4])
    if rows and len(days) < len(plan.days):
        yield Paragraph(f"The {count(len(plan.days) - len(days), 'day')} after that are free.")


def _road(plan: Plan) -> Iterator[Block]:
    yield Heading("After the exam")
    yield from map(Paragraph, road_words(plan))


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
