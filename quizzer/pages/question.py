"""A question as it is asked, and its worked solution."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block, Page
from quizzer.blocks.question import Caution, Choices, Steps
from quizzer.blocks.text import Gap, Heading, Paragraph, Points
from quizzer.blocks.words import EVIDENCE
from quizzer.question.question import Question
from quizzer.question.replies import explained, in_words


def question_page(question: Question, title: str, beside: str = "") -> Page:
    """Cautions of dangerous situations, the stem and its options; with topic and progress as the title."""
    return Page(title, [*cautions(question, before=True), Gap(), *_asked(question)], beside)


def cautions(question: Question, *, before: bool) -> Iterator[Caution]:
    """The cautions that stand before the question, or the others."""
    return (Caution(each.say, each.defer) for each in question.head.cautions if each.before == before)


def solution(question: Question, *, cautioned: bool = False) -> Iterator[Block]:
    """The key, the worked solution with figures, units and verdict, and where it all comes from.

    `cautioned` says that the cautions of the dangerous situation stand on the same page already.
    """
    yield Paragraph(in_words(question, question.key), "key", "Answer")
    if question.reason:
        yield Paragraph(question.reason, lead="Why")
    if parts := explained(question):
        yield Points(parts, ordered=True)
    if question.working:
        yield Heading("Worked solution", 3)
        yield Steps(question.working, question.figures)
    if question.verdict:
        yield Paragraph(question.verdict, "key", "Verdict")
    yield Gap()
    yield Paragraph(question.head.source, "aside", "Source")
    yield Paragraph(f"{question.head.edition}; {EVIDENCE[question.head.evidence]}.", "aside", "Edition")
    if not cautioned:
        yield from cautions(question, before=True)
    yield from cautions(question, before=False)


def _asked(question: Question) -> Iterator[Block]:
    yield Paragraph(question.stem)
    if question.options:
        yield Gap()
        yield Choices([(option.label, option.text) for option in question.options])
