"""The record of a paper: what was asked of whom, enough to make every question of it again on another machine."""

from __future__ import annotations

import json
from typing import Any, NamedTuple

from quizzer.errors import Refused

VERSION = 1


class Item(NamedTuple):
    """One question of a form: its entry and seed, the entry's digest then, its section, and the key as printed."""

    entry: str
    seed: int
    digest: str
    section: str
    key: str


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
    """A mock paper: its forms, its rules, and the seed it was made from. `made_on` is a day, YYYY-MM-DD."""

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

    def form(self, letter: str) -> Form:
        """The form of a letter or a serial. Raises Refused."""
        for form in self.forms:
            if letter.upper() in (form.serial.upper(), form.letter.upper()):
                return form
        known = ", ".join(form.serial for form in self.forms)
        raise Refused(f"paper {self.id} has no form {letter!r}", mend=f"its forms are {known}")


def to_json(paper: Paper) -> str:
    """The record as text that reads back as the same record."""
    content = {"quizzer_paper": VERSION, **_plain(paper)}
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def from_json(text: str, where: str) -> Paper:
    """The record of a text. Raises Refused, naming `where` it came from."""
    try:
        content = json.loads(text)
        version = content.pop("quizzer_paper")
        if version != VERSION:
            raise Refused(
                f"{where} was written by another version of quizzer ({version}, not {VERSION})", mend="use that version"
            )
        return _paper(content)
    except (ValueError, KeyError, TypeError, AttributeError):
        raise Refused(
            f"{where} is not the record of a paper", mend="name the paper.json that `paper make` wrote"
        ) from None


def _plain(value: Any) -> Any:
    if hasattr(value, "_asdict"):
        return {key: _plain(inner) for key, inner in value._asdict().items()}
    return [_plain(inner) for inner in value] if isinstance(value, tuple) else value


def _paper(content: dict[str, Any]) -> Paper:
    forms = tuple(
        Form(each["letter"], each["serial"], each["person"], tuple(Item(**item) for item in each["items"]))
        for each in content.pop("forms")
    )
    sections = tuple(Section(**each) for each in content.pop("sections"))
    paper = Paper(permitted=tuple(content.pop("permitted")), sections=sections, forms=forms, **content)
    if {type(paper.minutes), type(paper.pass_mark), type(paper.seed)} != {int} or not paper.forms:
        raise TypeError
    return paper
