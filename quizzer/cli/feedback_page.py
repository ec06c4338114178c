"""After an answer: right or wrong in words, why, the worked solution, and when it comes back."""

from __future__ import annotations

from datetime import date

from quizzer.blocks.words import day_words
from quizzer.cli.question_page import add_solution
from quizzer.question.question import Question
from quizzer.question.replies import Reply, in_words
from quizzer.render.terminal.canvas import Canvas
from quizzer.schedule import Confidence
from quizzer.workflows.session import Result


def add_feedback(
    page: Canvas, question: Question, reply: Reply, confidence: Confidence, result: Result, today: date
) -> None:
    """The whole feedback on one answer."""
    _add_mark(page, question, reply, confidence, result)
    page.gap()
    add_solution(page, question)
    page.gap()
    page.text(_when(result, today), style="bold")


def _add_mark(page: Canvas, question: Question, reply: Reply, confidence: Confidence, result: Result) -> None:
    mark = result.mark
    if mark.right:
        page.text(f"RIGHT{_though(result, confidence)}", style="right")
    else:
        page.text(f"WRONG: you answered {in_words(question, reply.text)}.", style="wrong")
    if mark.why:
        page.text(f"Why: {mark.why}", hang=5)
    if not mark.right and confidence is Confidence.CERTAIN:
        page.text(
            "You were certain. A mistake believed in is the kind that hurts someone on site: read what follows "
            "slowly, and talk it over with your tutor. It is kept for your report.",
            style="caution",
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
