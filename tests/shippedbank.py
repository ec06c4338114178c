"""The shipped bank, read once for all the tests that walk through it, and questions that several laws are held to.

Entries and questions are frozen, so one reading serves every test; reading the whole bank takes a second or two.
"""

from functools import cache
from pathlib import Path

from quizzer.bank.entries import Entry, Template
from quizzer.bankfiles.shelf import Loaded, Shelf, shipped
from quizzer.question.making import make
from quizzer.question.question import Question

SHELF = Shelf(shipped())
FILES = tuple(SHELF.files())


@cache
def loaded(path: Path) -> Loaded:
    """What a file of the bank gave."""
    return SHELF.load(path)


def entries() -> list[Entry]:
    """Every entry, topics in the order they are taught."""
    return [entry for path in FILES for entry in loaded(path).entries]


def templates() -> list[Template]:
    """Every template, in the same order."""
    return [entry for entry in entries() if isinstance(entry, Template)]


def question(entry: Entry, seed: int) -> Question:
    """The question of an entry of the shipped bank, made once."""
    found = _MADE.get((entry.head.id, seed))
    if found is None:
        found = _MADE[entry.head.id, seed] = make(entry, seed)
    return found


_MADE: dict[tuple[str, int], Question] = {}
