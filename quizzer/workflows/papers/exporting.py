"""A form of a paper for another system: a QTI package, a table or one JSON object."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from typing import NamedTuple

from quizzer.bankfiles.shelf import Shelf
from quizzer.paper.record import Form, Paper
from quizzer.question.question import Question
from quizzer.render.csv.question_table import question_table
from quizzer.render.qti.package import qti_package
from quizzer.workflows.bank.showing import as_json
from quizzer.workflows.papers.finding import Making

Written = Callable[[Paper, Form, Sequence[Question]], bytes]


class Exported(NamedTuple):
    """A form in a file of a kind, and what of it such a file has no place for, in words."""

    content: bytes
    left: tuple[str, ...]


def exported(shelf: Shelf, paper: Paper, form: Form, kind: str) -> Exported:
    """The form's questions, made again, as one of KINDS. Raises Refused when an entry has changed since."""
    questions = Making(shelf, paper).of(form)
    return Exported(KINDS[kind](paper, form, questions), _left(kind, paper, questions))


def _left(kind: str, paper: Paper, questions: Sequence[Question]) -> tuple[str, ...]:
    shows = any(question.picture for question in questions)
    sheets = any(question.sheet for question in questions)
    rules = any(section.all_right for section in paper.sections)
    qti = kind in QTI
    found = (
        (qti and len(paper.forms) > 1, "the forms beside this one"),
        (qti, "marking by this program: no answers come back"),
        (qti, "level, evidence and sign-off of a question, and which are safety-critical"),
        (qti and bool(paper.permitted), "the calculator as a tool: what is permitted stands in the instructions"),
        (kind == "csv", "time, pass mark and permitted aids"),
        (kind == "csv" and rules, "which sections must be all right"),
        (kind == "csv" and shows, "pictures"),
        (kind == "csv" and sheets, "record sheets as tables: they stand as lines of text"),
        (kind == "csv", "cautions"),
    )
    return tuple(said for applies, said in found if applies)


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
QTI = ("qti22", "qti3")
SUFFIXES = {"qti22": "-qti22.zip", "qti3": "-qti3.zip", "csv": ".csv", "json": ".json"}
