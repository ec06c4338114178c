"""The sheet for the pocket, note by note: a mistake with the right working, or the formulas of a weak sub-topic."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.notices import NOTICE
from quizzer.blocks.page import Page
from quizzer.blocks.question import CautionNote, Working
from quizzer.blocks.text import Paragraph
from quizzer.blocks.words import capital, count
from quizzer.question.replies import by_letter, in_words
from quizzer.workflows.forecast.pocket import Pocket, PocketMistake

_LONG = 600  # characters of a stem: the record sheet of a fault does not go into a pocket
_MOST_FORMULAS = 8  # of a sub-topic


def cover(found: Pocket) -> Page:
    """Whose it is, of which day, and that it is an aid for study alone."""
    day = f"{found.today.day} {found.today:%B %Y}"
    parts = ", ".join(found.formulas) or "none yet"
    return Page(
        f"For the pocket: {found.trainee.name}",
        [
            Paragraph(f"{day}. {capital(count(len(found.mistakes), 'mistake'))} to mend."),
            Paragraph(f"{parts}.", lead="Weak sub-topics"),
            Paragraph("Fold the sheet in half three times; cut the full line in the middle; push the ends together."),
            Paragraph(NOTICE),
        ],
    )


def notes(found: Pocket) -> list[Page]:
    """The notes in turn, a mistake and the formulas of a sub-topic, so that both have room."""
    mistakes = [_mistake(each) for each in found.mistakes if len(each.question.stem) <= _LONG]
    formulas = [_formulas(part, lines) for part, lines in _lines(found) if lines]
    turns = [note for pair in zip(mistakes, formulas, strict=False) for note in pair]
    shared = min(len(mistakes), len(formulas))
    return [*turns, *mistakes[shared:], *formulas[shared:]]


def _mistake(one: PocketMistake) -> Page:
    """What went wrong, the question, and the right working or reason."""
    question = one.question
    blocks = [Paragraph(question.stem)]
    blocks += [Paragraph(question.reason, lead="Why")] if question.reason else []
    working = [Working(question.working, question.figures)] if question.working else []
    cautions = [CautionNote(each.say, each.defer) for each in question.head.cautions[:1]]
    # Without the options beside it a letter would say nothing.
    right = question.option(question.key).text if by_letter(question.kind) else in_words(question, question.key)
    answer = Paragraph(right, "key", "Right")
    return Page(capital(one.words) or question.id, [*blocks, *working, answer, *cautions])


def _formulas(part: str, lines: list[str]) -> Page:
    return Page(f"Formulas: {part}", [Paragraph(line) for line in lines[:_MOST_FORMULAS]])


def _lines(found: Pocket) -> Iterator[tuple[str, list[str]]]:
    """The formulas of each sub-topic, each once."""
    for part, questions in found.formulas.items():
        steps = [step for question in questions for step in question.working]
        yield part, list(dict.fromkeys(f"{step.formula}  {step.say}".strip() for step in steps))
