"""What stands in the documents of a form, as plain data for their templates."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from math import ceil
from typing import Any

from quizzer.bank.head import Caution
from quizzer.blocks.pictures import Picture
from quizzer.blocks.question import Working
from quizzer.blocks.text import DataTable
from quizzer.blocks.words import checked
from quizzer.editions import edition_line
from quizzer.paper.record import Form, Paper
from quizzer.question.question import Question, StemPart
from quizzer.render.typst.mathematics import lines
from quizzer.render.typst.picturing import pictured
from quizzer.render.typst.tabling import tabled

EXTRA = (100, 125, 150)  # per cent of the minutes, for trainees with an arrangement for extra time


def candidate_words(paper: Paper, form: Form, questions: Sequence[Question], variant: str) -> dict[str, Any]:
    """The candidate's paper: its cover, and the questions by section."""
    return _cover(paper, form, variant, "Question paper") | {
        "minutes": paper.minutes,
        "pass_mark": paper.pass_mark,
        "permitted": list(paper.permitted),
        "times": [{"share": f"{share} %", "minutes": ceil(paper.minutes * share / 100)} for share in EXTRA],
        "sections": _sections(paper, form, questions),
    }


def sheet_words(paper: Paper, form: Form, questions: Sequence[Question], variant: str) -> dict[str, Any]:
    """The answer sheet: the letters of every question, in fives."""
    rows = [
        {"number": number, "labels": [option.label for option in question.options]}
        for number, question in enumerate(questions, 1)
    ]
    fives = [rows[at : at + 5] for at in range(0, len(rows), 5)]
    return _cover(paper, form, variant, "Answer sheet") | {"fives": fives}


def scheme_words(paper: Paper, form: Form, questions: Sequence[Question], variant: str) -> dict[str, Any]:
    """The mark scheme: keys at a glance, then each question with its solution, mistakes and source."""
    titles = {section.id: section.title for section in paper.sections}
    solved = [
        _solved(number, question) | {"section": titles.get(item.section, item.section)}
        for number, (item, question) in enumerate(zip(form.items, questions, strict=True), 1)
    ]
    return _cover(paper, form, variant, "Mark scheme") | {
        "pass_mark": paper.pass_mark,
        "all_right": [section.title for section in paper.sections if section.all_right],
        "solved": solved,
    }


def _cover(paper: Paper, form: Form, variant: str, kind: str) -> dict[str, Any]:
    return {
        "look": variant,
        "kind": kind,
        "title": paper.title,
        "letter": form.letter,
        "serial": f"{paper.id}/{form.serial}",
        "person": form.person,
        "edition": paper.edition,
        "questions": len(form.items),
    }


def _sections(paper: Paper, form: Form, questions: Sequence[Question]) -> list[dict[str, Any]]:
    known = {section.id: section for section in paper.sections}
    numbered = zip(form.items, enumerate(questions, 1), strict=True)
    return [
        {
            "title": known[id].title if id in known else id,
            "all_right": id in known and known[id].all_right,
            "questions": [_asked(number, question) for _, (number, question) in inside],
        }
        for id, inside in groupby(numbered, key=lambda pair: pair[0].section)
    ]


def _asked(number: int, question: Question) -> dict[str, Any]:
    return {
        "number": number,
        "stem": question.stem,
        "parts": _parts(question),
        "cautions": [_caution(each) for each in question.head.cautions if each.before],
        "options": [{"label": option.label, "text": option.text} for option in question.options],
    }


def _solved(number: int, question: Question) -> dict[str, Any]:
    head = question.head
    return {
        "number": number,
        "key": question.key,
        "stem": question.stem,
        "parts": _parts(question),
        "options": [
            {"label": option.label, "text": option.text, "why": option.why, "right": option.label == question.key}
            for option in question.options
        ],
        "reason": question.reason,
        "working": [line._asdict() for line in lines(Working(question.working, question.figures))],
        "verdict": question.verdict,
        "cautions": [_caution(each) for each in head.cautions],
        "source": head.source,
        "edition": edition_line(head.edition, head.currency),
        "evidence": checked(head.evidence, question.signed),
        "name": question.name,
        "level": head.level,
        "safety_critical": head.safety_critical,
    }


def _parts(question: Question) -> list[dict[str, Any]]:
    return [_part(part) for part in question.stem_parts]


def _part(part: StemPart) -> dict[str, Any]:
    match part:
        case str():
            return {"text": part}
        case Picture():
            return pictured(part)
        case DataTable():
            return tabled(part)


def _caution(caution: Caution) -> dict[str, str]:
    return {"say": caution.say, "defer": caution.defer}
