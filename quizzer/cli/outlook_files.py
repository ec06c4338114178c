"""What `weak`, `ready` and `plan` write to files: plots, the page itself, and a calendar."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from quizzer.cli.ready_page import DECIDES, percent
from quizzer.cli.weak_page import spoken
from quizzer.errors import Refused, UsageError
from quizzer.render.calendars import Event, calendar
from quizzer.render.plots import Interval, Plot, bars, intervals, svg
from quizzer.workflows.plan import ROAD_MINUTES, ROAD_TOPICS, Plan
from quizzer.workflows.readiness import Readiness
from quizzer.workflows.weakness import STRONG, Weakness


def write(path: Path, page: str, plots: str | None) -> None:
    """Write the plots to an .svg file, or the page to any other. Raises UsageError, or Refused."""
    if path.suffix.lower() in {".pdf", ".png", ".html"}:
        raise UsageError(f"{path.suffix} files are not written here", mend="name a file that ends in .svg or .txt")
    if path.suffix.lower() == ".svg" and plots is None:
        raise UsageError("there are no plots of a group, or of too few answers", mend="name a .txt file")
    text = plots if path.suffix.lower() == ".svg" and plots else page if page.endswith("\n") else page + "\n"
    try:
        path.write_bytes(text.encode("utf-8"))
    except OSError as error:
        raise Refused(f"{str(path)!r} cannot be written ({error.strerror})", mend="name another file") from None


def weak_plots(found: Weakness) -> str | None:
    """Topics with their intervals."""
    rows = [Interval(state.title, state.then[1], state.then[0], state.then[2])
            for state in found.topics if state.word != "unknown"]  # fmt: skip
    if not rows:
        return None
    when = f"on {found.exam.isoformat()}" if found.exam else "today"
    words = f"Recall {when} by topic, with 90 % intervals: {spoken(found.topics, {})}."
    plot = intervals(f"Recall {when} by topic (dashed: strong)", words, rows, 1.0, STRONG)
    return svg(f"Topics of {found.trainee.name}", [plot], DECIDES)


def ready_plots(found: Readiness) -> str | None:
    """The chances of marks, the sections, and the curve to the exam."""
    if found.marks is None:
        return None
    return svg(f"Readiness of {found.trainee.name}: {found.blueprint.title}", list(_ready_plots(found)), DECIDES)


def _ready_plots(found: Readiness) -> Iterator[Plot]:
    marks, plan = found.marks, found.blueprint
    if marks is None:
        return
    low, high = marks.between(0.9)
    words = (
        f"The mark to expect on {found.day.isoformat()} is {marks.mean:.0f} of {plan.questions}, nine times in ten "
        f"from {low} to {high}; the chance of {plan.pass_mark} or more is {percent(marks.at_least(plan.pass_mark))}."
    )
    heights = [(str(mark), chance) for mark, chance in enumerate(marks.chances)]
    yield bars(f"Chance of each mark (dark: {plan.pass_mark} or more)", words, heights, plan.pass_mark)
    rows = [Interval(each.title[:38], each.low / each.questions, each.expected / each.questions,
                     each.high / each.questions) for each in found.sections]  # fmt: skip
    words = "; ".join(f"{each.title}: {each.expected:.1f} of {each.questions}, {each.low} to {each.high}"
                      for each in found.sections)  # fmt: skip
    yield intervals("Share right by section, with 90 % intervals", words + ".", rows, 1.0)
    if len(found.curve) > 1:
        rows = [Interval(f"{day.day} {day:%b}", low, mean, high) for day, mean, low, high in found.curve]
        words = "If nothing more is studied: " + "; ".join(f"{day.isoformat()} {mean:.0f}, {low} to {high}"
                                                           for day, mean, low, high in found.curve)  # fmt: skip
        yield intervals("Mark over the days to the exam (dashed: pass mark)", words + ".", rows,
                        plan.questions, plan.pass_mark)  # fmt: skip


def calendar_of(plan: Plan, now: datetime) -> str:
    """Each study day with what it holds, the exam, and the weekly sessions after it."""
    who = plan.trainee.id
    days = [
        Event(
            f"study-{who}-{day.day.isoformat()}",
            day.day,
            f"Study {plan.minutes:g} minutes",
            f"{day.reviews} due, {day.new} new",
        )
        for day in plan.days
    ]
    exam = Event(f"exam-{who}", plan.exam, "Exam", DECIDES)
    title, topics = f"Keep alive: {ROAD_MINUTES:g} minutes", ", ".join(ROAD_TOPICS)
    road = Event(f"road-{who}", plan.road_first, title, topics, plan.road_last)
    return calendar([*days, exam, road], now)
