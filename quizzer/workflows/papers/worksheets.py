"""Pages to practise a topic on paper: so many questions of it, with numbers that are new each time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count
from random import Random
from typing import Final, NamedTuple

from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.question.question import Question
from quizzer.workflows.bank.entries_under import wanted
from quizzer.workflows.exercises import neighbours_in, question_of
from quizzer.workflows.signed_off import sign_offs, signed_off

MOST: Final = 100
SEEDS: Final = 10_000
# An order is written as letters in a row, which a sheet without a line for each has no room for.
ASKED: Final = ("choose", "number")
# So many draws in a row that give nothing new: there is no more to be had.
PATIENCE: Final = 300


class Worksheet(NamedTuple):
    """Questions to practise; `person` is whose they are, "" for everybody's, and `seed` makes them again."""

    person: str
    seed: int
    questions: tuple[Question, ...]


def worksheets(
    shelf: Shelf, topics: Sequence[str], many: int, seed: int, people: Sequence[str] = ()
) -> tuple[Worksheet, ...]:
    """A sheet of `many` questions of the topics, or one for each of `people`: the same entries, other numbers.

    Entries come in turn, each once before any comes again. Raises NotFound for a topic that is not there, Refused
    where it has not so many questions.
    """
    ids = sorted(entry.id for entry in wanted(shelf, topics))
    order = sorted(ids, key=lambda entry: Random(f"{seed}/{entry}").random())
    return tuple(
        Worksheet(person, seed, tuple(_drawn(shelf, order, many, f"{seed}/{person}"))) for person in people or ("",)
    )


def _drawn(shelf: Shelf, order: Sequence[str], many: int, dice_of: str) -> list[Question]:
    taken: dict[str, Question] = {}
    since = 0
    for question in _questions(shelf, order, dice_of):
        new = question.kind in ASKED and question.stem not in taken
        since = 0 if new else since + 1
        if new:
            taken[question.stem] = question
        if len(taken) == many:
            return list(taken.values())
        if since > PATIENCE:
            break
    what = f"the topic has {len(taken)} different questions for paper, not {many}"
    raise Refused(what, mend="ask for fewer with --count, or name another topic besides with --topic")


def _questions(shelf: Shelf, order: Sequence[str], dice_of: str) -> Iterator[Question]:
    """Questions of the entries in turn, for ever."""
    near, told, dice = neighbours_in(shelf), sign_offs(shelf), Random(dice_of).random
    for _ in count():
        for id in order:
            entry = shelf.find(id)
            yield signed_off(told, question_of(near, entry, int(dice() * SEEDS), ""))
