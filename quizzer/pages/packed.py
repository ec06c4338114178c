"""A question with all that may be said of it, in parts: for a page that asks and marks without the program."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final, NamedTuple, assert_never

from quizzer.blocks.page import Block
from quizzer.blocks.question import Choices
from quizzer.blocks.text import Gap, Paragraph
from quizzer.pages.feedback import verdict, why
from quizzer.pages.question import cautions, question_page, source_line
from quizzer.question.numbers import FIGURES_RIGHT, POWER_OF_TEN, UNUSUAL, rounded_why
from quizzer.question.question import Mark, Question
from quizzer.question.replies import Reply, mark, number_asked
from quizzer.schedule import Confidence

# Stands where a reply is said that is not known yet. No text of a bank has such a character, and no keyboard.
REPLY: Final = "\ue000"


class ReplyOutcome(NamedTuple):
    """What a reply may lead to: its mark, what is said of it, the same for who was guessing, and why."""

    mark: Mark
    said: Paragraph
    guessed: Paragraph
    why: tuple[Block, ...]


def asked(question: Question) -> Sequence[Block]:
    """What is asked, its cautions first; the options, which are buttons, left out."""
    blocks = [each for each in question_page(question, "").blocks if not isinstance(each, Choices)]
    while isinstance(blocks[0], Gap):
        del blocks[0]
    while isinstance(blocks[-1], Gap):
        del blocks[-1]
    return blocks


def marked_otherwise(entry: str, *, right: bool) -> str:
    """What somebody is told whose answer the page marked otherwise than the program."""
    found = "right" if right else "wrong"
    return f"The program marked your answer to {entry} {found}, this phone otherwise: the program's mark counts."


def behind(question: Question) -> Iterator[Block]:
    """What stands behind the working: the cautions of the feedback, and the source."""
    yield from cautions(question, before=False)
    yield source_line(question)


def outcomes(question: Question) -> Mapping[str, ReplyOutcome]:
    """Every outcome by its name: the letter of an option; `right`, `rounded`, the place of the mistake that was made.

    Of an order it is the step that comes too late; of a number the diagnosis, or `power` or `other`.
    """
    return {name: _outcome(question, text, found) for name, text, found in _marks(question)}


def _outcome(question: Question, text: str, found: Mark) -> ReplyOutcome:
    said, guessed = (verdict(question, text, sure, found) for sure in (None, Confidence.GUESSING))
    return ReplyOutcome(found, said, guessed, tuple(why(found)))


def _marks(question: Question) -> Iterator[tuple[str, str, Mark]]:
    match question.kind:
        case "choose":
            for option in question.options:
                yield option.label, option.label, mark(question, Reply(option.label))
        case "number":
            yield from ((name, REPLY, found) for name, found in _of_number(question))
        case "order":
            yield "right", question.key, mark(question, Reply(question.key))
            for at, (one, two) in enumerate(pairwise(question.key)):
                swapped = f"{question.key[:at]}{two}{one}{question.key[at + 2 :]}"
                yield str(at), REPLY, mark(question, Reply(swapped))
        case kind:
            assert_never(kind)


def _of_number(question: Question) -> Iterator[tuple[str, Mark]]:
    yield "right", Mark(True)
    yield "rounded", Mark(True, rounded=True, why=rounded_why(number_asked(question)))
    yield "power", Mark(False, slip=POWER_OF_TEN, why=FIGURES_RIGHT)
    yield "other", Mark(False, why=UNUSUAL)
    for at, each in enumerate(question.diagnoses):
        yield str(at), Mark(False, slip=each.slip, why=each.why)
