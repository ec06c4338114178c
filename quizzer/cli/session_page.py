"""The first and the last screen of a study session, and its help."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from quizzer.blocks.words import NOTICE, day_words
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.session import Limits
from quizzer.workflows.starting import Today
from quizzer.workflows.summary import Summary

HELP = (
    ("A, B, C, D", "choose an option; B1 chooses it and says how sure you are in one go"),
    ("0.94, 940 mohm", "type a number, with or without its unit"),
    ("CABD", "put steps in order: type all their letters, first step first"),
    ("1, 2, 3", "how sure you are: 1 certain, 2 fairly sure, 3 guessing"),
    ("<", "in place of 1, 2 or 3: another answer, before it is marked"),
    ("s", "skip this question for today"),
    ("d", "I dispute this: your tutor gets your reason (while options A to D are open, type dispute)"),
    ("q", "stop; everything answered so far is kept"),
    ("?", "this help"),
)


def add_welcome(page: Canvas, today: Today, name: str, limits: Limits, day: date) -> None:
    """Who studies, what is due, and when the exam is."""
    page.heading(f"Study: {name}", f"{day:%a} {day.day} {day:%b} {day.year}")
    due = f"{today.due} due" if today.due else "nothing due"
    questions = "1 question" if limits.count == 1 else f"{limits.count} questions"
    length = questions if limits.count is not None else f"{limits.minutes:g} minutes"
    page.text(f"{due.capitalize()} today, {today.new} not met yet. This session: {length}.")
    if today.exam is not None:
        order = " What gains most for it comes first." if today.by_gain else ""
        page.text(f"Exam {day_words(today.exam, day)}.{order}")
    page.text(NOTICE, style="faint")
    page.gap()


def add_help(page: Canvas) -> None:
    """What can be typed."""
    page.gap()
    for keys, meaning in HELP:
        page.text(f"{keys:<15} {meaning}", indent=2, hang=18)


def add_summary(page: Canvas, found: Summary, titles: Mapping[str, str], day: date) -> None:
    """What was done, weak topics with their counts, and when to come back."""
    page.gap()
    page.heading("Session over", f"{found.minutes:.0f} min")
    if not found.answers:
        page.text("No question was answered.")
    else:
        extra = f", and {found.drills} once more" if found.drills else ""
        questions = "1 question" if found.answers == 1 else f"{found.answers} questions"
        page.text(f"{questions}{extra}: {found.right} right, {found.answers - found.right} wrong.")
        _add_topics(page, found, titles)
        _add_serious(page, found)
    page.gap()
    if found.back is None:
        page.text("Nothing is scheduled: come back any day for new questions.")
    else:
        page.text(f"Come back {day_words(found.back, day)}: {found.back_count} due then.", style="bold")


def _add_topics(page: Canvas, found: Summary, titles: Mapping[str, str]) -> None:
    weak = [each for each in found.topics if each.right < each.answers]
    if weak:
        page.gap()
        page.text("Weakest first (a few answers say little yet):")
    for each in weak:
        page.text(f"{each.right} of {each.answers} right  {titles.get(each.topic, each.topic)}", indent=2, hang=16)


def _add_serious(page: Canvas, found: Summary) -> None:
    if found.confident_errors:
        page.text(f"Wrong although certain: {found.confident_errors}. Look at these first.", style="wrong")
    if found.safety_errors:
        page.text(f"Safety-critical and wrong: {found.safety_errors}. These come back tomorrow.", style="wrong")
