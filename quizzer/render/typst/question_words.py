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
from quizzer.render.typst.text_heights import HEAD, TextHeights

# How wide the labels of options are in the bold font, as shares of its size.
LABEL_WIDTHS = {"A": 0.573, "B": 0.605, "C": 0.582, "D": 0.635, "E": 0.548, "F": 0.524, "G": 0.638, "H": 0.674}
_LABEL = 0.6  # another's
LINE_TO_WRITE = 1.3  # a line for an answer
ALL_RIGHT = "Every question of this section must be right to pass."


def section_words(section: Section, numbered: Sequence[tuple[int, Question]], look: str) -> dict[str, Any]:
    """A section of a paper: its title, what its questions have to be cautioned of, and they with their numbers."""
    told = {number: [each for each in question.head.cautions if each.before] for number, question in numbered}
    above, beside = split(told)
    heights = TextHeights(look)
    rule = [heights.text(ALL_RIGHT, beside=False)] if section.all_right else []
    titled = HEAD + heights.text(section.title, -0.1 * len(section.title), beside=False)
    return {
        "high": heights.stacked([titled, *rule, *(heights.caution(_said(each), beside=False) for each in above)]),
        "title": section.title,
        "all_right": section.all_right,
        "cautions": above,
        "questions": [asked_words(number, question, beside[number], look) for number, question in numbered],
    }


def asked_words(number: int, question: Question, cautions: Sequence[dict[str, str]], look: str) -> dict[str, Any]:
    """A question as it is asked, with the cautions that stand with it alone."""
    options = [option.text for option in question.options]
    widths = {option.label: LABEL_WIDTHS.get(option.label, _LABEL) for option in question.options}
    widest = max(widths.values(), default=0.0)
    texts = [question.stem, *options, *(told["say"] + told["defer"] for told in cautions)]
    heights = TextHeights(look)
    parts = _parts(question, heights)
    options_high = heights.options(options, widest)
    told = [heights.caution(_said(each)) for each in cautions]
    return {
        "high": heights.stacked([*told, *_text_heights(parts), options_high if options else LINE_TO_WRITE]),
        "high-of-options": options_high,
        "number": number,
        "parts": parts,
        "cautions": list(cautions),
        "options": [
            {"label": option.label, "text": option.text, "narrower": round(widest - widths[option.label], 3)}
            for option in question.options
        ],
        "widest": widest,
        "symbols": any("_" in text for text in texts),
    }


def solved_words(number: int, question: Question, look: str) -> dict[str, Any]:
    """A question in the mark scheme: with its key, the mistakes behind wrong options, the working and the source."""
    head = question.head
    heights = TextHeights(look)
    parts = _parts(question, heights)
    options = [f"{option.text} (the key)\nBecause: {option.why}" for option in question.options]
    return {
        "high": heights.solved(_text_heights(parts), options),
        "number": number,
        "key": question.key,
        "parts": parts,
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


def _said(caution: dict[str, str]) -> str:
    """A caution about as long as it is printed."""
    return f"Caution, {caution['for']}: {caution['say']} Ask: {caution['defer']}."


def _text_heights(parts: Sequence[dict[str, Any]]) -> list[float]:
    """The heights of those parts that are text, 0 for the others; what has no words is none."""
    return [part["high"] if "text" in part else 0.0 for part in parts if part.get("text") != ""]


def _parts(question: Question, heights: TextHeights) -> list[dict[str, Any]]:
    return [_part(part, heights) for part in question.stem_parts]


def _part(part: StemPart, heights: TextHeights) -> dict[str, Any]:
    match part:
        case str():
            return {"text": part, "high": heights.text(part)}
        case Picture():
            return pictured(part)
        case DataTable():
            return tabled(part)


def _caution(caution: Caution) -> dict[str, str]:
    return {"say": caution.say, "defer": caution.defer, "for": ""}
