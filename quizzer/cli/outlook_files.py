"""Files of `weak`, `ready` and `plan`: the plots, the page on paper or as text, and a calendar."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.page import Page, Plot, shown
from quizzer.blocks.words import DECIDES
from quizzer.errors import UsageError
from quizzer.render.calendars import Event, calendar
from quizzer.workflows.plan import ROAD_MINUTES, ROAD_TOPICS, Plan

ENDINGS = (".svg", ".pdf", ".txt")
_HEAD = "Study aid: an estimate, no promise"


def check_ending(path: Path | None) -> None:
    """Raises UsageError for a file of a kind that is not written here: before anything is worked out."""
    if path is not None and path.suffix.lower() not in ENDINGS:
        raise UsageError(
            f"--out {str(path)!r} is none of .svg, .pdf and .txt",
            mend="end the name in .svg (the plots), .pdf (plots and tables) or .txt (the page as shown)",
        )


def write(path: Path, page: Page, text: str, day: date) -> None:
    """Write the plots alone, plots with tables, or the text, by the ending. Raises UsageError, or Refused."""
    match path.suffix.lower():
        case ".svg":
            save_whole(path, _svg(page).encode())
        case ".pdf":
            from quizzer.render.typst.report import report_pdf  # here and below, not above: the screen needs neither

            save_whole(path, report_pdf(page, day, day.isoformat(), _HEAD))
        case _:
            save_whole(path, f"{text.rstrip()}\n".encode())


def _svg(page: Page) -> str:
    from quizzer.render.svg.drawing import svg

    plots = [block for block in shown(page.blocks, "paper") if isinstance(block, Plot)]
    if not plots:
        raise UsageError(
            "there is nothing to draw: too few answers so far, or no days left", mend="name a .pdf or .txt file instead"
        )
    return svg(page.title, plots, DECIDES)


def calendar_of(plan: Plan, now: datetime) -> str:
    """Each study day with what it holds, the exam, and the weekly sessions after it."""
    who = plan.trainee.id
    days = [
        Event(
            f"study-{who}-{day.day.isoformat()}",
            day.day,
            f"Study {plan.minutes:g} minutes",
            f"{day.reviews} again, {day.new} new",
        )
        for day in plan.days
    ]
    exam = Event(f"exam-{who}", plan.exam, "Exam", DECIDES)
    title, topics = f"Keep alive: {ROAD_MINUTES:g} minutes", ", ".join(ROAD_TOPICS)
    road = Event(f"road-{who}", plan.road_first, title, topics, plan.road_last)
    return calendar([*days, exam, road], now)
