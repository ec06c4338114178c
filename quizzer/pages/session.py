"""The first and the last page of a study session."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Gap, Paragraph, Table
from quizzer.blocks.words import NOTICE, capital, count, day_words
from quizzer.workflows.session import Limits
from quizzer.workflows.starting import Today
from quizzer.workflows.summary import Summary


def welcome_page(today: Today, name: str, limits: Limits, day: date, weak: Sequence[str] = ()) -> Page:
    """Who studies, what is due, when the exam is, and which weak sub-topics come first."""
    due = f"{today.due} due" if today.due else "nothing due"
    length = count(limits.count, "question") if limits.count is not None else f"{limits.minutes:g} minutes"
    blocks: list[Block] = [Paragraph(f"{capital(due)} today, {today.new} not met yet. This session: {length}.")]
    if today.exam is not None:
        order = " What gains most for it comes first." if today.by_gain else ""
        blocks.append(Paragraph(f"Exam {day_words(today.exam, day)}.{order}"))
    blocks.append(Paragraph(NOTICE, "aside"))
    if weak:
        blocks += [Gap(), Paragraph(f"{', '.join(weak)}.", lead="Weak sub-topics first")]
    return Page(f"Study: {name}", [*blocks, Gap()], f"{day:%a} {day.day} {day:%b} {day.year}")


def summary_page(found: Summary, titles: Mapping[str, str], day: date, notes: Sequence[str] = ()) -> Page:
    """What was done, weak topics with their counts, and when to come back."""
    back = (
        "Nothing is scheduled: come back any day for new questions."
        if found.back is None
        else f"Come back {day_words(found.back, day)}: {found.back_count} due then."
    )
    told = [Paragraph(f"{note}.", lead="Note") for note in notes]
    return Page(
        "Session over", [*_done(found, titles), Gap(), Paragraph(back, "key"), *told], f"{found.minutes:.0f} min"
    )


def _done(found: Summary, titles: Mapping[str, str]) -> Iterator[Block]:
    if not found.answers:
        yield Paragraph("No question was answered.")
        return
    extra = f", and {found.drills} once more" if found.drills else ""
    wrong = found.answers - found.right
    yield Paragraph(f"{count(found.answers, 'question')}{extra}: {found.right} right, {wrong} wrong.")
    if weak := [each for each in found.topics if each.right < each.answers]:
        rows = [[titles.get(each.topic, each.topic), f"{each.right} of {each.answers}"] for each in weak]
        yield Table("Weakest first (a few answers say little yet)", ["Topic", "Right"], rows)
    if found.confident_errors:
        yield Paragraph(f"Wrong although certain: {found.confident_errors}. Look at these first.", "wrong")
    if found.safety_errors:
        yield Paragraph(f"Safety-critical and wrong: {found.safety_errors}. These come back tomorrow.", "wrong")
