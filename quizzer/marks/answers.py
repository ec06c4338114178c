"""Answers of many people to many forms, brought to one table: letters mapped back to what the options mean.

Forms of one paper may hold the same questions with other numbers and other letters, so nothing may be counted by
letter. Each option has a name that is the same in every form: the mistake behind it, with what the option says where
the question has several of one mistake, or `KEY`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

KEY = "key"
OMITTED = ""
LEAST_ANSWERED = 0.1  # of the questions: who answered fewer was as good as absent


class AnswerRow(NamedTuple):
    """One person's answers to one form, named by its serial: a letter a question, "" where none was given.

    `absent` is somebody of whom it was said that they were not there.
    """

    person: str
    form: str
    answers: tuple[str, ...]
    absent: bool = False


class OfferedQuestion(NamedTuple):
    """One question of a form: the entry it was made from, and each letter's option by its lasting name.

    `item` is the same in every form that asks it: the entry, with the case where a family gives several.
    """

    entry: str
    options: Mapping[str, str]
    item: str


class ChosenOption(NamedTuple):
    """What a person chose at a question, by its lasting name (`OMITTED` for nothing), out of what was offered."""

    person: str
    form: str
    entry: str
    item: str
    chosen: str
    offered: tuple[str, ...]

    @property
    def right(self) -> bool:
        """Whether it is the key."""
        return self.chosen == KEY


class Sheet(NamedTuple):
    """One person's answers, mapped back, in the order of their form."""

    person: str
    form: str
    answers: tuple[ChosenOption, ...]
    absent: bool = False

    @property
    def mark(self) -> int:
        """Right answers."""
        return sum(answer.right for answer in self.answers)

    @property
    def answered(self) -> int:
        """Questions with an answer."""
        return sum(answer.chosen != OMITTED for answer in self.answers)

    @property
    def apart(self) -> bool:
        """Whether the person was as good as absent: neither passed nor failed, and in no mean."""
        return as_good_as_absent(self.answered, len(self.answers))


def as_good_as_absent(answered: int, questions: int) -> bool:
    """Whether so few questions were answered that the mark says nothing: fewer than one in ten.

    >>> as_good_as_absent(0, 7), as_good_as_absent(2, 30), as_good_as_absent(3, 30)
    (True, True, False)
    """
    return answered < LEAST_ANSWERED * questions


def sheet(script: AnswerRow, asked: Sequence[OfferedQuestion]) -> Sheet:
    """A script mapped back. A letter that the question does not offer counts as no answer."""
    answers = (
        ChosenOption(
            script.person,
            script.form,
            one.entry,
            one.item,
            one.options.get(letter, OMITTED),
            tuple(one.options.values()),
        )
        for letter, one in zip(script.answers, asked, strict=True)
    )
    return Sheet(script.person, script.form, tuple(answers), script.absent)


def alike(sheets: Sequence[Sheet]) -> tuple[tuple[Sheet, ...], ...]:
    """The sheets by what was asked: all that answered the same questions, in whatever order, together."""
    blocks: dict[frozenset[str], list[Sheet]] = {}
    for each in sheets:
        blocks.setdefault(frozenset(answer.item for answer in each.answers), []).append(each)
    return tuple(tuple(block) for block in blocks.values())


def table(block: Sequence[Sheet]) -> list[list[int]]:
    """The marks of sheets that were asked alike: a row a person, a column a question in one order."""
    order = [answer.item for answer in block[0].answers] if block else []
    rows = ({answer.item: int(answer.right) for answer in each.answers} for each in block)
    return [[row[item] for item in order] for row in rows]
