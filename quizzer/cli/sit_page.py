"""The screens of a paper answered at the terminal."""

from __future__ import annotations

from quizzer.blocks.words import NOTICE
from quizzer.cli.question_page import add_question
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.sitting import Desk

HELP = (
    ("A, B, C, D", "choose an option; you can change it until you hand in"),
    ("Enter or n, p", "the next question, the one before"),
    ("17", "go to question 17"),
    ("f", "flag this question to come back to it, or take the flag away"),
    ("x", "take your answer back"),
    ("u", "what is unanswered and what is flagged"),
    ("t", "the time used and left"),
    ("submit", "hand in; you are asked once more"),
    ("q", "leave; everything is kept, and the time used stays used"),
    ("?", "this help"),
)


def add_start(page: Canvas, desk: Desk, name: str) -> None:
    """What is sat, by whom, under which rules."""
    paper = desk.paper
    page.heading(f"Mock paper: {paper.title}", f"form {desk.form.serial}")
    page.text("MOCK: not a live paper.", style="bold")
    extra = ", extra time included" if desk.sitting.allowed > paper.minutes * 60 else ""
    page.text(f"{name}: {len(desk.questions)} questions in {minutes(desk.sitting.allowed)}{extra}.")
    page.text(f"Permitted: {', '.join(paper.permitted) or 'nothing but pen and paper'}. Edition: {paper.edition}.")
    page.text(
        "Every answer is kept at once. If this window closes, begin again with the same command: you go on where you "
        "were. When the time is up, what you have answered is handed in. Nothing is marked until then."
    )
    page.text(NOTICE, style="faint")
    if desk.resumed:
        page.gap()
        page.text(f"You go on where you stopped. {clock(desk)}", style="bold")
    add_sitting_help(page)


def add_sitting_help(page: Canvas) -> None:
    """What can be typed."""
    page.gap()
    for keys, meaning in HELP:
        page.text(f"{keys:<15} {meaning}", indent=2, hang=18)
    page.gap()


def add_place(page: Canvas, desk: Desk) -> None:
    """The question, and what was answered so far."""
    title = {section.id: section.title for section in desk.paper.sections}[desk.form.items[desk.at].section]
    flag = ", flagged" if desk.flagged else ""
    add_question(page, desk.question, title, f"question {desk.at + 1} of {len(desk.questions)}{flag}")
    page.gap()
    page.text(f"Your answer: {desk.chosen}" if desk.chosen else "Not answered yet.")


def add_overview(page: Canvas, desk: Desk) -> None:
    """What is unanswered and what is flagged."""
    missing, flags = desk.unanswered(), desk.flags()
    page.text(f"Unanswered: {numbers(missing)}" if missing else "Every question is answered.", hang=12)
    page.text(f"Flagged: {numbers(flags) if flags else 'none'}", hang=9)


def add_handed_in(page: Canvas, desk: Desk) -> None:
    """That it is handed in, and what comes next."""
    count = len(desk.questions)
    page.gap()
    page.heading("Handed in", f"form {desk.form.serial}")
    page.text(f"{count - len(desk.unanswered())} of {count} questions answered, {minutes(desk.used())} used.")
    page.text(f"Your tutor marks it with `quizzer paper mark {desk.paper.id}`.")


def add_left(page: Canvas, desk: Desk) -> None:
    """That it is kept."""
    count = len(desk.questions)
    page.gap()
    page.text(f"Kept, not handed in: {count - len(desk.unanswered())} of {count} questions answered. {clock(desk)}")
    page.text("The same command goes on from here.")


def numbers(found: tuple[int, ...]) -> str:
    """Numbers in a row, with runs drawn together.

    >>> numbers((1, 2, 3, 7, 9, 10))
    '1 to 3, 7, 9, 10'
    """
    runs: list[list[int]] = []
    for number in found:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)


def clock(desk: Desk) -> str:
    """The time used and left."""
    return f"{minutes(desk.used())} used, {minutes(desk.left())} left."


def minutes(seconds: int) -> str:
    """Whole minutes, or seconds where there is less than one.

    >>> minutes(2250), minutes(75), minutes(59)
    ('37 minutes', '1 minute', '59 seconds')
    """
    if seconds < 60:
        return f"{seconds} second{'' if seconds == 1 else 's'}"
    return f"{seconds // 60} minute{'' if seconds < 120 else 's'}"
