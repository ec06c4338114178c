"""A form on paper: the candidate's paper, the answer sheet and, in a folder of its own, the mark scheme."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quizzer.paper.record import Form, Paper
from quizzer.question.question import Question
from quizzer.render.typst.letterheads import Headed, head_words
from quizzer.render.typst.paper_words import candidate_words, scheme_words, sheet_words
from quizzer.render.typst.typesetting import pdf

SCHEMES = "mark-scheme"


def paper_pdfs(
    paper: Paper,
    form: Form,
    questions: Sequence[Question],
    variant: str = "standard",
    head: Headed | None = None,
) -> dict[str, bytes]:
    """The three documents of a form by file name. `variant` is standard, large-print-18, large-print-24 or wide-spaced.

    The mark scheme lies in a folder of its own, so that it is not sent to the printer with the papers. `head` is the
    centre whose papers they are. Raises Refused for a logo that cannot be drawn.
    """
    day = date.fromisoformat(paper.made_on)
    suffix = "" if variant == "standard" else f"-{variant}"
    candidate, sheet, scheme = (
        words(paper, form, questions, variant) for words in (candidate_words, sheet_words, scheme_words)
    )
    centre = head_words(head)
    return {
        f"{form.serial}-paper{suffix}.pdf": pdf("question-paper", candidate | centre, day),
        f"{form.serial}-answer-sheet{suffix}.pdf": pdf("answer-sheet", sheet | centre, day),
        f"{SCHEMES}/{form.serial}-mark-scheme{suffix}.pdf": pdf("scheme", scheme, day),
    }
