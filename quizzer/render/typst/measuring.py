"""How high the questions of a form are on paper, as the template that prints them lays them out."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from quizzer.paper.packing import Heights
from quizzer.paper.record import Form, Paper
from quizzer.question.question import Question
from quizzer.render.typst.paper_words import candidate_words
from quizzer.render.typst.typesetting import compiler


def heights(paper: Paper, form: Form, questions: Sequence[Question], variant: str) -> Heights:
    """The heights of the form's questions in that look."""
    return measured(candidate_words(paper, form, questions, variant))


def measured(content: dict[str, Any]) -> Heights:
    """The heights of the questions of the content's sections in its look."""
    told = json.loads(compiler("measure", content).query("<heights>", field="value"))[0]
    parted = {
        (at, place): tuple(pieces)
        for at, section in enumerate(told["parted"])
        for place, pieces in enumerate(section)
        if pieces
    }
    questions, heads = tuple(map(tuple, told["questions"])), tuple(told["heads"])
    return Heights(told["page"], told["between"], questions, heads, told["end"], told["shared"], parted)
