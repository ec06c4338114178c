"""What was ruled about questions of a paper after it was sat: not counted, or right by another letter too."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from quizzer.paper.record import Form, Item
from quizzer.values import NamedTuple

_NONE: Final[Mapping[str, frozenset[str]]] = {}


class Rulings(NamedTuple):
    """By the names of questions: those that are void, and the letters that are right besides the key."""

    voided: frozenset[str] = frozenset()
    also: Mapping[str, frozenset[str]] = _NONE

    def counts(self, item: Item) -> bool:
        """Whether a question is counted."""
        return item.name not in self.voided

    def is_right(self, item: Item, letter: str) -> bool:
        """Whether a letter is right."""
        return letter == item.key or letter in self.also.get(item.name, ())

    def rights(self, form: Form, answers: Sequence[str]) -> tuple[bool | None, ...]:
        """Right or wrong for each answer to a form; None where the question is not counted."""
        return tuple(
            self.is_right(item, letter) if self.counts(item) else None
            for item, letter in zip(form.items, answers, strict=True)
        )


NO_RULINGS: Final = Rulings()


def reckoned(pass_mark: int, questions: int, counted: int) -> int:
    """The pass mark when so many of the questions are counted: by the rule of a blueprint asked for fewer questions.

    >>> reckoned(18, 30, 30), reckoned(18, 30, 29), reckoned(20, 30, 28), reckoned(1, 30, 1)
    (18, 17, 19, 1)
    """
    return pass_mark if questions == counted else max(1, round(pass_mark * (counted / questions)))
