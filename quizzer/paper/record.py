"""The record of a paper: what was asked of whom, with the questions as they were made."""

from __future__ import annotations

import json
from typing import Any

from quizzer.bank.bounds import said
from quizzer.errors import Refused
from quizzer.values import NamedTuple

VERSION, READ = 2, (1, 2)  # as it is written, and as it can be read
SELDOM = ("exercise", "questions")  # fields that may be left out
_NAMED = 30  # forms in a sentence


class Item(NamedTuple):
    """One question of a form: its entry and seed, the entry's digest then, its section, and the key as printed.

    `exercise` is what is asked of the working (`wrong-line:2`), "" where the whole is.
    """

    entry: str
    seed: int
    digest: str
    section: str
    key: str
    exercise: str = ""

    @property
    def name(self) -> str:
        """The name of its question."""
        return ":".join([f"{self.entry}#{self.seed}", *filter(None, [self.exercise])])


class Section(NamedTuple):
    """A part of a paper. `all_right` says that one wrong answer in it fails the paper."""

    id: str
    title: str
    questions: int
    all_right: bool


class Form(NamedTuple):
    """One version of a paper. `serial` is printed on every page; `person` is whose numbers these are, if anybody's."""

    letter: str
    serial: str
    person: str
    items: tuple[Item, ...]


class Paper(NamedTuple):
    """A mock paper: its forms, its rules, and the seed it was made from. `made_on` is a day, YYYY-MM-DD.

    `questions` are all of its questions whole, packed; "" in records of before they were kept.
    """

    id: str
    title: str
    blueprint: str
    edition: str
    made_on: str
    seed: int
    minutes: int
    pass_mark: int
    permitted: tuple[str, ...]
    sections: tuple[Section, ...]
    forms: tuple[Form, ...]
    questions: str = ""

    def form(self, letter: str) -> Form:
        """The form of a letter or a serial. Raises Refused."""
        for form in self.forms:
            if letter.upper() in (form.serial.upper(), form.letter.upper()):
                return form
        known = ", ".join(form.serial for form in self.forms[:_NAMED]) + ("" if len(self.forms) <= _NAMED else " …")
        raise Refused(f"paper {self.id} has no form {said(letter)}", mend=f"its forms are {known}")


def to_json(paper: Paper) -> str:
    """The record as text that reads back as the same record."""
    content = {"quizzer_paper": VERSION, **_plain(paper)}
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def _plain(value: Any) -> Any:
    if hasattr(value, "_asdict"):
        # Whole questions are written as ever, so that older versions read them too.
        kept = {key: inner for key, inner in value._asdict().items() if inner or key not in SELDOM}
        return {key: _plain(inner) for key, inner in kept.items()}
    return [_plain(inner) for inner in value] if isinstance(value, tuple) else value
