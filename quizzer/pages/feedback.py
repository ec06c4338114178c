"""After an answer: right or wrong in words, why, the worked solution, and when it comes back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from quizzer.blocks.page import Block
from quizzer.blocks.text import Gap, Paragraph
from quizzer.blocks.words import RIGHT, WRONG, day_words
from quizzer.pages.question import solution
from quizzer.question.question import Question
from quizzer.question.replies import Reply, in_words
from quizzer.schedule import Confidence
from quizzer.workflows.session import Result


def feedback(question: Question, reply: Reply, confidence: Confidence, result: Result, today: date) -> Iterator[Block]:
    """The whole feedback on one answer."""
    yield from _mark(question, reply, confidence, result)
    yield Gap()
    yield from solution(question)
    yield Gap()
    yield Paragraph(_when(result, today), "key")


def _mark(question: Question, reply: Reply, confidence: Confidence, result: Result) -> Iterator[Block]:
    mark = result.mark
    if mark.right:
        yield Paragraph(f"{RIGHT}{_though(result, confidence)}", "right")
    else:
        yield Paragraph(f"{WRONG}: you answered {in_words(question, reply.text)}.", "wrong")
    if mark.why:
        yield Paragraph(mark.why, lead="Why")
    if not mark.right and confidence is Confidence.CERTAIN:
        yield Paragraph(
            "You were certain. A mistake believed in is the kind that hurts someone on site: read what follows "
            "slowly, and talk it over with your tutor. It is kept for your report.",
            "caution",
        )


def _though(result: Result, confidence: Confidence) -> str:
    if result.mark.rounded:
        return ", but rounded too far."
    if confidence is Confidence.GUESSING:
        return ", but you were guessing: it counts as not known yet."
    return "."


def _when(result: Result, today: date) -> str:
    again = " It is asked once more before this session ends." if result.again else ""
    if result.drill:
        return "That was an extra go: it changes nothing in your schedule."
    if result.back is None:
        return f"Not scheduled again before your exam.{again}"
    return f"Comes back {day_words(result.back, today)}.{again}"
