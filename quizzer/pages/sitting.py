"""The pages of a paper that is answered question by question."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.notices import NOTICE
from quizzer.blocks.page import Block, Only, Page
from quizzer.blocks.text import Gap, Paragraph, do
from quizzer.blocks.words import MOCK, count
from quizzer.pages.question import question_page
from quizzer.workflows.papers.sitting import Desk


def start_page(desk: Desk, name: str) -> Page:
    """What is sat, by whom, under which rules."""
    return Page(f"Mock paper: {desk.paper.title}", [*_start(desk, name)], f"form {desk.form.serial}")


def _start(desk: Desk, name: str) -> Iterator[Block]:
    paper = desk.paper
    extra = ", extra time included" if desk.sitting.allowed > paper.minutes * 60 else ""
    yield Paragraph(f"{MOCK}.", "key")
    yield Paragraph(f"{name}: {len(desk.questions)} questions in {minutes(desk.sitting.allowed)}{extra}.")
    yield Paragraph(
        f"Permitted: {', '.join(paper.permitted) or 'nothing but pen and paper'}. Edition: {paper.edition}."
    )
    yield Paragraph(
        "Every answer is kept at once. When the time is up, what you have answered is handed in. Nothing is marked "
        "until then."
    )
    again = "If this window closes, begin again with the same command: you go on where you were."
    yield Only(("terminal",), [Paragraph(again)])
    yield Paragraph(NOTICE, "aside")
    if desk.resumed:
        yield Gap()
        yield Paragraph(f"You go on where you stopped. {clock(desk)}", "key")


def place_page(desk: Desk) -> Page:
    """The question, and what was answered so far."""
    title = {section.id: section.title for section in desk.paper.sections}[desk.form.items[desk.at].section]
    flag, asked = ", flagged" if desk.flagged else "", len(desk.questions)
    done = f"{asked - len(desk.unanswered())} answered, {-(-desk.left() // 60)} min left"
    page = question_page(desk.question, title, f"{desk.at + 1} of {asked}{flag}, {done}", answering=True)
    answered = f"Your answer: {desk.chosen}" if desk.chosen else "Not answered yet."
    return page._replace(blocks=[*page.blocks, Gap(), Paragraph(answered)])


def overview(desk: Desk) -> Iterator[Block]:
    """What is unanswered and what is flagged."""
    missing, flags = desk.unanswered(), desk.flags()
    yield Paragraph(numbers(missing), lead="Unanswered") if missing else Paragraph("Every question is answered.")
    yield Paragraph(numbers(flags) if flags else "none", lead="Flagged")


def handed_in_page(desk: Desk) -> Page:
    """That it is handed in, and what comes next."""
    blocks = (
        Paragraph(f"{_answered(desk)}, {minutes(desk.used())} used."),
        Paragraph(("Your tutor marks it with ", do("paper mark", desk.paper.id), ".")),
    )
    return Page("Handed in", blocks, f"form {desk.form.serial}")


def left(desk: Desk) -> Iterator[Block]:
    """That it is kept."""
    yield Paragraph(f"Kept, not handed in: {_answered(desk)}. {clock(desk)}")
    yield Only(("terminal",), [Paragraph("The same command goes on from here.")])


def _answered(desk: Desk) -> str:
    questions = len(desk.questions)
    return f"{questions - len(desk.unanswered())} of {questions} questions answered"


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
    return count(seconds, "second") if seconds < 60 else count(seconds // 60, "minute")
