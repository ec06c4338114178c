"""Pages to practise on, for one person or a class in one file, with the answers behind each sheet where wanted."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from random import Random
from typing import Any, NamedTuple

from quizzer.paper.packing import Heights, packed_orders
from quizzer.paper.record import Section
from quizzer.question.question import Question
from quizzer.render.typst.measuring import measured
from quizzer.render.typst.question_words import section_words, solved_words
from quizzer.render.typst.typesetting import pdf


class PracticeSheet(NamedTuple):
    """What stands on a sheet: its title, whose it is ("" for nobody's own), its serial and its questions."""

    title: str
    person: str
    serial: str
    questions: Sequence[Question]


def worksheet_pdf(sheets: Sequence[PracticeSheet], variant: str, day: date, *, answers: bool) -> bytes:
    """The sheets one after another as a tagged PDF, the questions of each in the order that fills its pages."""
    content = {"look": variant, "title": sheets[0].title, "sheets": [_sheet(each, variant, answers) for each in sheets]}
    return pdf("worksheet", content, day)


def _sheet(sheet: PracticeSheet, variant: str, answers: bool) -> dict[str, Any]:
    ordered = [sheet.questions[at] for at in _order(sheet, variant)]
    numbered = list(enumerate(ordered, 1))
    return {
        "title": sheet.title,
        "person": sheet.person,
        "serial": sheet.serial,
        "section": _section(sheet.title, numbered, variant),
        "solved": [solved_words(*each, variant) for each in numbered] if answers else [],
    }


def _order(sheet: PracticeSheet, variant: str) -> list[int]:
    return packed_orders([sheet_heights(sheet, variant)], lambda _: True, Random(sheet.serial).random)[0]


def sheet_heights(sheet: PracticeSheet, variant: str) -> Heights:
    """How high the questions of a sheet are, and all that stands above them on its first page."""
    section = _section(sheet.title, list(enumerate(sheet.questions, 1)), variant)
    top = {"title": sheet.title, "person": sheet.person}
    return measured({"look": variant, "sections": [section | {"top": top}]})._replace(end=0.0)  # has no end mark


def _section(title: str, numbered: Sequence[tuple[int, Question]], look: str) -> dict[str, Any]:
    return section_words(Section("practice", title, len(numbered), all_right=False), numbered, look)
