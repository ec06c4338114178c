"""Files of `weak`, `ready` and `plan`: the plots, the page on paper or as text, and a calendar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import NamedTuple, TypeVar

from quizzer.bankfiles.doors import save_whole
from quizzer.cli.ready_page import DECIDES
from quizzer.errors import UsageError
from quizzer.render.calendars import Event, calendar
from quizzer.render.svg.plots import svg
from quizzer.render.typst.report import Block, Paragraph, Picture, report_pdf
from quizzer.workflows.plan import ROAD_MINUTES, ROAD_TOPICS, Plan

ENDINGS = (".svg", ".pdf", ".txt")
_A_PICTURE = 25  # rows of a plot: more would not stand under the heads of a page
_HEAD = "Study aid: an estimate, no promise"
Row = TypeVar("Row")


class Sheet(NamedTuple):
    """A page on paper: its title, the word at the foot of each page, and what it holds."""

    title: str
    serial: str
    blocks: Sequence[Block]


def check_ending(path: Path | None) -> None:
    """Raises UsageError for a file of a kind that is not written here: before anything is worked out."""
    if path is not None and path.suffix.lower() not in ENDINGS:
        raise UsageError(
            f"--out {str(path)!r} is none of .svg, .pdf and .txt",
            mend="end the name in .svg (the plots), .pdf (plots and tables) or .txt (the page as shown)",
        )


def write(path: Path, page: str, sheet: Sheet, day: date) -> None:
    """Write the plots alone, plots with tables, or the page, by the ending. Raises UsageError, or Refused."""
    match path.suffix.lower():
        case ".svg":
            save_whole(path, _svg(sheet).encode())
        case ".pdf":
            blocks = (Paragraph(DECIDES, framed=True), *sheet.blocks)
            save_whole(path, report_pdf(sheet.title, sheet.serial, blocks, day, head=_HEAD))
        case _:
            save_whole(path, f"{page.rstrip()}\n".encode())


def in_pictures(title: str, rows: Sequence[Row]) -> Iterator[tuple[str, Sequence[Row]]]:
    """The rows shared out over pictures that fit a page, each with its title."""
    many = -(-len(rows) // _A_PICTURE)
    size = -(-len(rows) // max(1, many))
    for at in range(many):
        yield (f"{title} ({at + 1} of {many})" if many > 1 else title), rows[at * size : (at + 1) * size]


def _svg(sheet: Sheet) -> str:
    plots = [block.plot for block in sheet.blocks if isinstance(block, Picture)]
    if not plots:
        raise UsageError(
            "there is nothing to draw: too few answers so far, or no days left", mend="name a .pdf or .txt file instead"
        )
    return svg(sheet.title, plots, DECIDES)


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
