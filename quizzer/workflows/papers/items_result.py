"""What the scripts say about the paper: its questions one by one, its reliability, its forms."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.marks import decisions, reliability
from quizzer.marks.answers import KEY, Sheet, alike, table
from quizzer.marks.comparing import FormFigures, compare
from quizzer.marks.decisions import Consistency, Decisions
from quizzer.marks.flags import Flag, flags
from quizzer.marks.intervals import ConfidenceInterval
from quizzer.marks.items import ItemFigures, items
from quizzer.marks.reliability import Spread
from quizzer.question.question import Question
from quizzer.workflows.papers.reporting import PaperResults


class Reliability(NamedTuple):
    """The figures of one set of questions and those who sat it; None where there are too few, or no spread."""

    marks: Spread
    kr20: float | None
    interval: ConfidenceInterval | None
    error: float | None
    decisions: Decisions | None
    subkoviak: Consistency | None


class Block(NamedTuple):
    """Forms that ask the same questions: their name, figures, and each question with the letters of its options.

    `letters` gives an option's letter where it is the same for everybody, else its name.
    """

    forms: tuple[str, ...]
    reliability: Reliability
    questions: int
    items: tuple[tuple[int, Question, ItemFigures], ...]
    letters: dict[tuple[str, str], str]


class ItemsReport(NamedTuple):
    """Everything on the page about the paper."""

    blocks: tuple[Block, ...]
    flags: tuple[Flag, ...]
    forms: tuple[FormFigures, ...]
    blueprint: str


def items_report(sat: PaperResults) -> ItemsReport:
    """The report on the questions of a paper and on the paper, from those who were there. Raises Refused for none."""
    sat = sat.counted
    blocks = tuple(_block(sat, block) for block in _by_form(alike(sat.sheets)))
    figures = [figure for block in blocks for _, _, figure in block.items]
    # A form that is one person's own has no mean to set beside another's.
    forms = () if any(form.person for form in sat.paper.forms) else compare(sat.sheets)
    return ItemsReport(blocks, flags(figures), forms, sat.paper.blueprint)


def _by_form(blocks: Sequence[tuple[Sheet, ...]]) -> list[tuple[Sheet, ...]]:
    return sorted(blocks, key=lambda block: min(each.form for each in block))


def _block(sat: PaperResults, sheets: Sequence[Sheet]) -> Block:
    forms = tuple(sorted({each.form for each in sheets}))
    asked = zip(sat.items[forms[0]], sat.numbers[forms[0]], sat.questions[forms[0]], strict=True)
    numbered = {item: (number, question) for item, number, question in asked}
    pass_mark = sat.pass_mark(forms[0])
    found = items(sheets, pass_mark)
    ordered = sorted(((*numbered[figure.item], figure) for figure in found), key=lambda each: each[0])
    return Block(forms, _reliability(sheets, pass_mark), len(numbered), tuple(ordered), _letters(sat, forms))


def _letters(sat: PaperResults, forms: Sequence[str]) -> dict[tuple[str, str], str]:
    seen: dict[tuple[str, str], set[str]] = {}
    for form in forms:
        for item, question in zip(sat.items[form], sat.questions[form], strict=True):
            also = sat.rulings.also.get(question.name, ())
            for option, name in zip(question.options, sat.names(item, question), strict=True):
                seen.setdefault((item, KEY if option.label in also else name), set()).add(option.label)
    fixed = _fixed(sat, forms)
    return {key: "/".join(sorted(labels)) if fixed else key[1] for key, labels in seen.items()}


def _fixed(sat: PaperResults, forms: Sequence[str]) -> bool:
    """Whether everybody had the same letters: forms with numbers of their own have letters of their own."""
    made = [
        [(q.id, sat.names(item, q)) for item, q in zip(sat.items[form], sat.questions[form], strict=True)]
        for form in forms
    ]
    return all(each == made[0] for each in made)


def _reliability(sheets: Sequence[Sheet], pass_mark: int) -> Reliability:
    marks = table(sheets)
    totals = [sum(row) for row in marks]
    whole, questions = reliability.spread(totals), len(marks[0])
    found = reliability.kr20(marks) if len(marks) >= reliability.FEWEST else None
    if found is None:
        return Reliability(whole, None, None, None, None, None)
    sure = len(marks) >= decisions.FEWEST and 0 < found < 1
    return Reliability(
        whole,
        found,
        reliability.feldt(found, whole.people, questions),
        reliability.standard_error(whole.deviation, found),
        decisions.livingston_lewis(found, whole, questions, pass_mark) if sure else None,
        decisions.subkoviak(found, totals, questions, pass_mark) if sure else None,
    )


def option_letter(block: Block, item: str, option: str) -> str:
    """How an option is named on the page: its letter, or `key` and the name of the mistake."""
    return block.letters.get((item, option), "key" if option == KEY else option)
