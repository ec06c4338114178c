"""After an answer: right or wrong in words and why, then the working, when it comes back, and the source."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date
from typing import Final

from quizzer.blocks.page import Block
from quizzer.blocks.text import Gap, Paragraph
from quizzer.blocks.words import RIGHT, WRONG, day_words
from quizzer.pages.question import NOBODY_TOLD, answer, cautions, reason, source_line, working
from quizzer.question.question import Mark, Question
from quizzer.question.replies import Reply, in_words
from quizzer.schedule import Confidence
from quizzer.schedule.pacing import Help
from quizzer.workflows.study.asked import Result

EXTRA_GO: Final = "That was an extra go: it changes nothing in your schedule."
THOUGH_CERTAIN = Paragraph("You were certain, and that is the kind that hurts on site: talk it over.", "caution")


def feedback(
    question: Question,
    reply: Reply,
    confidence: Confidence | None,
    result: Result,
    today: date,
    told: Collection[str] = NOBODY_TOLD,
) -> Iterator[Block]:
    """The whole feedback on one answer: the verdict and its reason first, the source last.

    `told` are the cautions shown before, by id; those of the question itself stand above its options.
    """
    yield from _mark(question, reply, confidence, result)
    yield from working(question)
    if result.going_on:
        return
    yield Gap()
    yield from cautions(question, before=False, told=told)
    yield Paragraph(_when(result, today), "key")
    yield source_line(question)


def verdict(question: Question, text: str, confidence: Confidence | None, mark: Mark) -> Paragraph:
    """Right or wrong, of a reply of that text; guessing is told where it made a difference."""
    if mark.right:
        return Paragraph(f"{RIGHT}{_though(mark, confidence)} {in_words(question, question.key)}.", "right")
    return Paragraph(f"{WRONG}: you answered {in_words(question, text)}.", "wrong")


def why(mark: Mark) -> Iterator[Block]:
    """Why it is wrong, or not wholly right; nothing for what is right."""
    if mark.why:
        yield Paragraph(mark.why, lead="Why" if mark.right else "Why wrong")


def _mark(question: Question, reply: Reply, confidence: Confidence | None, result: Result) -> Iterator[Block]:
    yield verdict(question, reply.text, confidence, result.mark)
    yield from why(result.mark)
    if confidence is Confidence.CERTAIN and not result.mark.right:
        yield THOUGH_CERTAIN
    yield from reason(question) if result.mark.right else answer(question)


def _though(mark: Mark, confidence: Confidence | None) -> str:
    if mark.rounded:
        return ", but rounded too far."
    if confidence is Confidence.GUESSING:
        return ", but you were guessing: it counts as not known yet."
    return "."


def _when(result: Result, today: date) -> str:
    again = f" {again_words(result.help)}" if result.again else ""
    if result.drill:
        return f"{EXTRA_GO}{again}"
    return f"{back_words(result.back, today)}{again}"


def back_words(back: date | None, today: date) -> str:
    """When an entry comes back, or that it does not before the exam."""
    return f"Comes back {day_words(back, today)}." if back else "Not scheduled again before your exam."


def again_words(help: Help | None) -> str:
    """How the entry is asked again in this session: with this help, or whole."""
    match help.level if help else "whole":
        case "line by line":
            return "Before this session ends, a sum like it is worked line by line."
        case "open line":
            return "Before this session ends, a sum like it comes with one line left open."
        case "open lines":
            return "Before this session ends, a sum like it comes with two lines left open."
        case "wrong line":
            return "Before this session ends, a working like it comes with a mistake to find."
        case "wrong line or none":
            return "Before this session ends, a working like it comes that may have a mistake in it."
        case "whole":
            return "It is asked once more before this session ends."
