"""A question by entry, seed and what is asked of its working; the bank gives the neighbours that a first line needs."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.bank.entries import Entry, Template
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.question.exercises.making import make_exercise, refusal
from quizzer.question.exercises.naming import EXERCISES, FIRST_STEP, Exercise, read_exercise
from quizzer.question.making import make
from quizzer.question.question import Question


def question_of(shelf: Shelf, entry: Entry, seed: int, exercise: str = "") -> Question:
    """The whole question, or the exercise of that name.

    Raises UsageError for a name that is none, and Refused where the entry does not suit it.
    """
    if not exercise:
        return make(entry, seed)
    wanted = read_exercise(exercise)
    return make_exercise(entry, seed, wanted, neighbours(shelf, entry) if wanted.name == FIRST_STEP else ())


def neighbours(shelf: Shelf, entry: Entry) -> list[Template]:
    """The other sums of the entry's topic."""
    found = (
        each
        for path in shelf.files()
        if shelf.folder_of(path).split("/")[0] == entry.head.topic
        for each in shelf.load(path).entries
    )
    return [each for each in found if isinstance(each, Template) and each.head.id != entry.head.id]


class Offered(NamedTuple):
    """An exercise, what it asks, and why an entry does not suit it; "" where it does."""

    name: str
    asks: str
    refused: str


def offered(shelf: Shelf, entry: Entry) -> list[Offered]:
    """Every exercise, as it suits an entry."""
    near = neighbours(shelf, entry)
    return [Offered(name, asks, _refused(entry, Exercise(name), near)) for name, asks in EXERCISES.items()]


def _refused(entry: Entry, exercise: Exercise, near: list[Template]) -> str:
    try:
        make_exercise(entry, 1, exercise, near)
    except Refused:
        return refusal(entry, exercise, near) or "too few of its options differ"
    return ""
