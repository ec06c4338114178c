"""A form of a paper for another system: a QTI package, a table or one JSON object."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence

from quizzer.bankfiles.shelf import Shelf
from quizzer.paper.record import Form, Paper
from quizzer.question.question import Question
from quizzer.render.csv.question_table import question_table
from quizzer.render.qti.package import qti_package
from quizzer.workflows.bank.showing import as_json
from quizzer.workflows.papers.finding import Making

Written = Callable[[Paper, Form, Sequence[Question]], bytes]


def exported(shelf: Shelf, paper: Paper, form: Form, kind: str) -> bytes:
    """The form's questions, made again, as one of KINDS. Raises Refused when an entry has changed since."""
    return KINDS[kind](paper, form, Making(shelf, paper).of(form))


def _json(paper: Paper, form: Form, questions: Sequence[Question]) -> bytes:
    asked = [
        {"number": number, "section": item.section, **as_json(question)}
        for number, (item, question) in enumerate(zip(form.items, questions, strict=True), 1)
    ]
    content = {
        "paper": paper.id,
        "title": paper.title,
        "form": form.letter,
        "serial": form.serial,
        "edition": paper.edition,
        "minutes": paper.minutes,
        "pass_mark": paper.pass_mark,
        "notice": "MOCK: not a live paper. For study only.",
        "questions": asked,
    }
    return (json.dumps(content, ensure_ascii=False, indent=1) + "\n").encode()


KINDS: dict[str, Written] = {
    "qti22": lambda paper, form, questions: qti_package(paper, form, questions, "qti22"),
    "qti3": lambda paper, form, questions: qti_package(paper, form, questions, "qti3"),
    "csv": question_table,
    "json": _json,
}
SUFFIXES = {"qti22": "-qti22.zip", "qti3": "-qti3.zip", "csv": ".csv", "json": ".json"}
