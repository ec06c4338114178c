"""What stands in the documents of a form, as plain data for their templates."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from math import ceil
from typing import Any

from quizzer.paper.record import Form, Paper, Section
from quizzer.paper.seating import Seat
from quizzer.paper.sheet_code import SheetCode, check_of, code_name
from quizzer.paper.sheet_layout import CODE_LEFT, CODE_SIDE, CODE_TOP, HOLE, LOOKS, RING, RINGS, sheet_pages
from quizzer.question.question import Question
from quizzer.render.typst.codes import code_svg
from quizzer.render.typst.question_words import section_words, solved_words
from quizzer.render.typst.typesetting import DRAWN

EXTRA = (100, 125, 150)  # per cent of the minutes, for trainees with an arrangement for extra time


def candidate_words(
    paper: Paper, form: Form, questions: Sequence[Question], variant: str, seat: Seat | None = None
) -> dict[str, Any]:
    """The candidate's paper: its cover, and the questions by section. `seat` is whose it is in a class."""
    return _cover(paper, form, variant, "Question paper", seat) | {
        "minutes": paper.minutes,
        "pass_mark": paper.pass_mark,
        "permitted": list(paper.permitted),
        "times": [{"share": f"{share} %", "minutes": ceil(paper.minutes * share / 100)} for share in EXTRA],
        "sections": _sections(paper, form, questions, variant),
    }


def sheet_words(
    paper: Paper, form: Form, questions: Sequence[Question], variant: str, seat: Seat | None = None
) -> dict[str, Any]:
    """The answer sheet: for each page its code and the rows of boxes where they stand, in millimetres."""
    pages = sheet_pages([question.labels for question in questions], variant)
    code = SheetCode(
        code_name(paper.id), form.serial, check_of(form), seat.number if seat else 0, 1, len(pages), variant
    )
    return _cover(paper, form, variant, "Answer sheet", seat) | {
        "sizes": LOOKS[variant]._asdict(),
        "rings": {"at": RINGS, "radius": RING, "hole": HOLE},
        "code": {"left": CODE_LEFT, "top": CODE_TOP, "side": CODE_SIDE},
        "pages": [
            {DRAWN: code_svg(code._replace(page=number).text), "rows": [row._asdict() for row in rows]}
            for number, rows in enumerate(pages, 1)
        ],
    }


def scheme_words(paper: Paper, form: Form, questions: Sequence[Question], variant: str) -> dict[str, Any]:
    """The mark scheme: keys at a glance, then each question with its solution, mistakes and source."""
    titles = {section.id: section.title for section in paper.sections}
    solved = [
        solved_words(number, question, variant) | {"section": titles.get(item.section, item.section)}
        for number, (item, question) in enumerate(zip(form.items, questions, strict=True), 1)
    ]
    return _cover(paper, form, variant, "Mark scheme") | {
        "pass_mark": paper.pass_mark,
        "all_right": [section.title for section in paper.sections if section.all_right],
        "solved": solved,
    }


def _cover(paper: Paper, form: Form, variant: str, kind: str, seat: Seat | None = None) -> dict[str, Any]:
    # A letter that forty different papers share would tell nobody which is meant: those of one person have a number.
    kind_of_form, name = ("paper", form.serial) if form.person else ("form", form.letter)
    return {
        "look": variant,
        "kind": kind,
        "title": paper.title,
        "letter": form.letter,
        "serial": f"{paper.id}/{form.serial}",
        "label": f"{kind_of_form.capitalize()} {name}",
        "called": f"{kind_of_form} {name}",
        "person": seat.name if seat else form.person,
        "seat": seat.number if seat else 0,
        "edition": paper.edition,
        "questions": len(form.items),
    }


def _sections(paper: Paper, form: Form, questions: Sequence[Question], look: str) -> list[dict[str, Any]]:
    known = {section.id: section for section in paper.sections}
    numbered = zip(form.items, enumerate(questions, 1), strict=True)
    return [
        section_words(known.get(id, Section(id, id, 0, all_right=False)), [pair for _, pair in inside], look)
        for id, inside in groupby(numbered, key=lambda pair: pair[0].section)
    ]
