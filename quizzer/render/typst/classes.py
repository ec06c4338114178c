"""The papers of a class as one document to print."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

from quizzer.paper.record import Form, Paper
from quizzer.paper.seating import Seat
from quizzer.question.question import Question
from quizzer.render.typst.letterheads import Headed, head_words
from quizzer.render.typst.paper_words import candidate_words, sheet_words
from quizzer.render.typst.typesetting import pdf


def class_pdf(
    paper: Paper,
    seats: Sequence[Seat],
    look: str,
    questions_of: Callable[[Form], Sequence[Question]],
    head: Headed | None = None,
) -> bytes:
    """The list of the seats, then everybody's paper and answer sheet in this variant of print."""
    content = {
        "look": look,
        "title": paper.title,
        "serial": paper.id,
        "seats": [_words(paper, seat, look, questions_of) for seat in seats],
        **head_words(head),
    }
    return pdf("class", content, date.fromisoformat(paper.made_on))


def _words(paper: Paper, seat: Seat, look: str, questions_of: Callable[[Form], Sequence[Question]]) -> dict[str, Any]:
    form = paper.form(seat.serial)
    questions = questions_of(form)
    candidate = candidate_words(paper, form, questions, look, seat)
    sheet = sheet_words(paper, form, questions, look, seat)
    return {"number": seat.number, "name": seat.name, "label": sheet["label"], "paper": candidate, "sheet": sheet}
