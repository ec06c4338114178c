"""A paper of one's own, marked: the mark beside what was to be expected, then everything a person's page says."""

from __future__ import annotations

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Do, Gap, Paragraph, Words, do
from quizzer.pages.corrections import pass_marks_said, rulings_said
from quizzer.pages.person import person_page
from quizzer.workflows.forecast.readiness import Readiness
from quizzer.workflows.papers.alone import Marked
from quizzer.workflows.papers.since_made import said_of_changes


def alone_page(found: Marked) -> Page:
    """The person's page of the paper, with the comparison under its first line where there is one.

    What was ruled stands there too, and behind everything what has changed in the bank since.
    """
    page = person_page(found.paper, [found.report], [found.sheet])
    first, *rest = page.blocks
    before = [Paragraph(compared(found.report.mark, found.before), "key")] if found.before else []
    ruled = [*rulings_said(found.paper, found.corrections), *pass_marks_said(found.paper, found.counted)]
    said = said_of_changes(list(found.changes))
    changed: list[Block] = [Gap(), Paragraph(said, "aside")] if said else []
    return page._replace(blocks=[first, *before, *ruled, *rest, *changed])


def compared(mark: int, before: Readiness) -> Words:
    """How a mark lies to the interval that was given before it.

    One mark in ten lies outside such an interval even where it is right.
    """
    ready: Do = do("ready")
    if before.span is None:
        return ("Before this paper ", ready, " could not say what to expect: too few answers. Now there are more.")
    low, high = before.span
    head = ("Before this paper ", ready, f" expected {low} to {high}, nine times in ten: ")
    if low <= mark <= high:
        return (*head, f"{mark} lies within.")
    side = "below" if mark < low else "above"
    return (*head, f"{mark} lies {side}. One mark in ten does so; if the next one does too, trust the papers.")
