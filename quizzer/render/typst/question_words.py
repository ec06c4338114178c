"""A question as plain data for the templates: as it is asked, and as a mark scheme explains it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from quizzer.bank.head import Caution
from quizzer.blocks.pictures import Picture
from quizzer.blocks.question import Working
from quizzer.blocks.text import DataTable
from quizzer.blocks.words import checked
from quizzer.editions import edition_line
from quizzer.paper.record import Section
from quizzer.question.question import Question, StemPart
from quizzer.render.typst.mathematics import lines
from quizzer.render.typst.picturing import pictured
from quizzer.render.typst.section_cautions import split
from quizzer.render.typst.tabling import tabled

# How wide the labels of options are in the bold font, as shares of its size.
LABEL_WIDTHS = {"A": 0.573, "B": 0.605, "C": 0.582, "D": 0.635, "E": 0.548, "F": 0.524, "G": 0.638, "H": 0.674}
_LABEL = 0.6  # another's


def section_words(section: Section, numbered: Sequence[tuple[int, Question]]) -> dict[str, Any]:
    """A section of a paper: its title, what its questions have to be cautioned of, and they with their numbers."""
    told = {number: [each for each in question.head.cautions if each.before] for number, question in numbered}
    above, beside = split(told)
    return {
        "title": section.title,
        "all_right": section.all_right,
        "cautions": above,
        "questions": [asked_words(number, question, beside[number]) for number, question in numbered],
    }


def asked_words(number: int, question: Question, cautions: Sequence[dict[str, str]]) -> dict[str, Any]:
    """A question as it is asked, with the cautions that stand with it alone."""
    options = [option.text for option in question.options]
    widths = {option.label: LABEL_WIDTHS.get(option.label, _LABEL) for option in question.options}
    widest = max(widths.values(), default=0.0)
    texts = [question.stem, *options, *(told["say"] + told["defer"] for told in cautions)]
    return {
        "number": number,
        "parts": _parts(question),
        "cautions": list(cautions),
        "options": [
            {"label": option.label, "text": option.text, "narrower": round(widest - widths[option.label], 3)}
            for option in question.options
        ],
        "widest": widest,
        "room": _room(texts),
        "room-of-options": _room(options),
        "symbols": any("_" in text for text in texts),
    }


def solved_words(number: int, question: Question) -> dict[str, Any]:
    """A question in the mark scheme: with its key, the mistakes behind wrong options, the working and the source."""
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


def _room(texts: Sequence[str]) -> dict[str, int]:
    """How many letters the texts have, and lines of which not all is filled."""
    return {"letters": sum(map(len, texts)), "lines": sum(text.count("\n") + 2 for text in texts)}


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
    return {"say": caution.say, "defer": caution.defer, "for": ""}
