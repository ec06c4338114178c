"""A question by entry, seed and what is asked of its working; the bank gives the neighbours that a first line needs."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from functools import cache
from typing import TYPE_CHECKING

from quizzer.bank.entries import Entry, Template
from quizzer.bank.exercises import EXERCISES, FIRST_STEP, SumExercise, read_exercise
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.question.replies import by_letter
from quizzer.values import NamedTuple

if TYPE_CHECKING:  # most questions are of no paper
    from quizzer.bank.blueprints import Blueprint

SEEDS_TRIED = 12  # a line without enough named mistakes is asked for as a number; among so many seeds is another line
Near = Callable[[Entry], Sequence[Template]]
ALONE: Near = lambda _: ()  # noqa: E731  no neighbours: only a first line needs them


def question_of(near: Near, entry: Entry, seed: int, exercise: str = "") -> Question:
    """The whole question, or the exercise of that name; `near` gives the neighbours.

    Raises UsageError for a name that is none, and Refused where the entry does not suit it.
    """
    if not exercise:
        return make(entry, seed)
    from quizzer.question.exercises.making import make_exercise  # here, not above: most questions are whole

    wanted = read_exercise(exercise)
    return make_exercise(entry, seed, wanted, near(entry) if wanted.name == FIRST_STEP else ())


def neighbours_in(shelf: Shelf) -> Near:
    """The other sums of an entry's topic; each topic is read once."""

    @cache
    def sums(topic: str) -> tuple[Template, ...]:
        inside = [path for path in shelf.files() if shelf.folder_of(path).split("/")[0] == topic]
        return tuple(each for path in inside for each in shelf.load(path).entries if isinstance(each, Template))

    return lambda entry: [each for each in sums(entry.head.topic) if each.head.id != entry.head.id]


def digest_of(near: Near, entry: Entry, exercise: str = "") -> str:
    """The fingerprint of all that a question is made of: the entry's, and for a first step that of its neighbours."""
    if not exercise or read_exercise(exercise).name != FIRST_STEP:
        return entry.head.digest
    import hashlib  # here, not above: it opens a library of ciphers, and only this exercise needs it

    every = [entry.head.digest, *(each.head.digest for each in near(entry))]
    return hashlib.sha256(" ".join(every).encode()).hexdigest()[:16]


class Offered(NamedTuple):
    """An exercise, what it asks, and why an entry does not suit it; "" where it does."""

    name: str
    asks: str
    refused: str


def offered(shelf: Shelf, entry: Entry) -> list[Offered]:
    """Every exercise, as it suits an entry."""
    near = neighbours_in(shelf)(entry)
    return [Offered(name, asks, _refused(entry, SumExercise(name), near)) for name, asks in EXERCISES.items()]


def _refused(entry: Entry, exercise: SumExercise, near: Sequence[Template]) -> str:
    from quizzer.question.exercises.making import make_exercise, refusal

    try:
        make_exercise(entry, 1, exercise, near)
    except Refused:
        return refusal(entry, exercise, near) or "too few of its options differ"
    return ""


def wanted(*plans: Blueprint) -> frozenset[str]:
    """The exercises that sections of blueprints ask."""
    return frozenset(section.exercise for plan in plans for section in plan.sections if section.exercise)


def exercises_by_letter(near: Near, entry: Entry, names: Collection[str]) -> frozenset[str]:
    """Those of the exercises that an entry offers with options, as a paper needs them."""
    return frozenset(name for name in names if _by_letter(near, entry, name))


def _by_letter(near: Near, entry: Entry, name: str) -> bool:
    try:
        return any(by_letter(question_of(near, entry, seed, name).kind) for seed in range(SEEDS_TRIED))
    except Refused:
        return False
