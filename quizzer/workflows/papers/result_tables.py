"""Reports as tables for a spreadsheet: a row a person, a question of one person, or a question of the paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.marks.intervals import band, chance_above, near_the_line
from quizzer.render.csv.csvs import csv_bytes
from quizzer.workflows.papers.items_result import Block, ItemsReport, option_letter
from quizzer.workflows.papers.pooling import PooledEntry, PooledPapers
from quizzer.workflows.papers.reporting import PaperResults, lines, mistake_words, sheets_of, verdict_on

PEOPLE = (
    "name",
    "form",
    "mark",
    "questions",
    "pass mark",
    "passed",
    "standard error",
    "near the line",
    "chance true mark at or above pass mark",
)
ANSWERS = (
    "name",
    "form",
    "question",
    "entry",
    "topic",
    "safety-critical",
    "answered",
    "key",
    "right",
    "mistake",
    "source",
)
ITEMS = (
    "forms",
    "question",
    "entry",
    "people",
    "right",
    "left out",
    "facility",
    "r with the rest",
    "standard error of r",
    "upper-lower 27 %",
    "passers less others",
    "working wrong options",
    "flags",
    "option",
    "is key",
    "offered",
    "chosen",
    "option's r with the rest",
)
ENTRIES = (
    "entry",
    "people",
    "right",
    "forms",
    "judged",
    "expected",
    "standard deviation of expected",
    "alike",
    "standard error of alike",
    "r with the rest",
    "standard error of r",
)
MOST_NAMED = 8  # forms, in one cell


def entries_csv(found: PooledPapers) -> bytes:
    """A row an entry of all papers of a blueprint; empty where too little is known."""
    return csv_bytes(ENTRIES, map(_entry_row, found.entries))


def _entry_row(each: PooledEntry) -> list[object]:
    figures, alike = each.figures, each.alike
    known = each.judged, each.expected, each.doubt if each.expected is not None else None
    model = (alike.facility, alike.facility_error) if alike else (None, None)
    shares = (*known, *model, figures.with_rest, figures.error)
    return [
        each.name,
        figures.people,
        figures.right,
        figures.forms,
        *map(_rounded, shares),
    ]


def people_csv(sat: PaperResults) -> bytes:
    """A row a person, with each section's right answers behind."""
    sections = [section.title for section in sat.paper.sections]
    return csv_bytes((*PEOPLE, *sections), _people(sat))


def answers_csv(sat: PaperResults, person: str) -> bytes:
    """A row an answer of one person. Raises NotFound."""
    return csv_bytes(ANSWERS, _answers(sat, person))


def items_csv(found: ItemsReport) -> bytes:
    """A row an option of every question."""
    return csv_bytes(ITEMS, (row for block in found.blocks for row in _options(found, block)))


def _people(sat: PaperResults) -> Iterator[Sequence[object]]:
    for one in sat.sheets:
        questions, pass_mark = len(one.answers), sat.pass_mark(one.form)
        verdict = verdict_on(sat, one)
        marks = {part.section.id: part.right for part in verdict.sections}
        yield (
            one.person,
            one.form,
            one.mark,
            questions,
            pass_mark,
            "absent" if one.absent else "set apart" if one.apart else _yes(verdict.passed),
            round(band(one.mark, questions).error, 2),
            _yes(not one.apart and near_the_line(one.mark, questions, pass_mark)),
            round(chance_above(one.mark, questions, pass_mark), 3),
            *(marks.get(section.id, "") for section in sat.paper.sections),
        )


def _answers(sat: PaperResults, person: str) -> Iterator[Sequence[object]]:
    for line in (line for one in sheets_of(sat, person) for line in lines(sat, one)):
        question, chosen = line.question, line.chosen
        wrong = chosen is not None and not line.answer.right
        yield (
            line.answer.person,
            line.answer.form,
            line.number,
            question.name,
            question.topic,
            _yes(question.head.safety_critical),
            chosen.label if chosen else "",
            line.key.label,
            _yes(line.answer.right),
            mistake_words(sat, question, line.answer.chosen) if wrong else "",
            question.head.source,
        )


def _options(found: ItemsReport, block: Block) -> Iterator[Sequence[object]]:
    forms = " ".join(block.forms) if len(block.forms) <= MOST_NAMED else f"{len(block.forms)} forms"
    for number, question, one in block.items:
        kinds = dict.fromkeys(flag.kind for flag in found.flags if flag.item == one.item)
        for choice in one.choices:
            yield (
                forms,
                number,
                question.name,
                one.people,
                one.right,
                one.omitted,
                round(one.facility, 4),
                _rounded(one.with_rest),
                _rounded(one.error),
                _rounded(one.upper_lower),
                _rounded(one.passers),
                one.working,
                " ".join(kinds),
                option_letter(block, one.item, choice.name),
                _yes(choice.name == "key"),
                choice.offered,
                choice.chosen,
                _rounded(choice.with_rest),
            )


def _rounded(value: float | None) -> float | str:
    return "" if value is None else round(value, 4)


def _yes(value: bool) -> str:
    return "yes" if value else "no"
