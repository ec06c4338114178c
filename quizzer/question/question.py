"""A question is whole: words, key, tolerance, options, working, reasons. Nothing later reads the entry."""

from __future__ import annotations

from typing import Literal

from quizzer.bank.head import Head
from quizzer.blocks.pictures import Picture
from quizzer.blocks.question import WorkingLine
from quizzer.blocks.text import DataTable
from quizzer.expression.showing import symbol
from quizzer.values import NamedTuple

LABELS = "ABCDEFGH"

# How a question is answered: with one letter, with a number and its unit, or with all letters in order.
# `replies` and `render/qti/items` say what each kind means; mypy names every place that a new kind must fill.
Kind = Literal["choose", "number", "order"]


# What a stem is made of: words, a record sheet, a picture.
StemPart = str | DataTable | Picture


class Shown(NamedTuple):
    """A given as shown: value and unit word, and the text of both."""

    name: str
    value: float
    unit: str
    text: str
    say: str


class Option(NamedTuple):
    """One option. `slip` names the mistake behind it; the key has neither slip nor why."""

    label: str
    text: str
    value: float | None
    slip: str | None
    why: str


class Answer(NamedTuple):
    """The number asked for, in its unit, and how far a typed answer may lie from it."""

    value: float
    unit: str
    text: str
    tolerance: float
    last_place: float


class Diagnosis(NamedTuple):
    """A wrong value that a known mistake leads to, and why it is wrong."""

    value: float
    tolerance: float
    slip: str
    why: str


class AskAgain(NamedTuple):
    """Why a reply cannot be marked, in one sentence."""

    why: str


class Mark(NamedTuple):
    """Right or wrong. `rounded` is right in method but too coarsely rounded; `slip` and `why` explain a wrong one."""

    right: bool
    rounded: bool = False
    slip: str | None = None
    why: str = ""


class RecordSheet(NamedTuple):
    """Readings of a circuit that stand in a stem: their lines there, and the same as a table."""

    text: str
    table: DataTable


class Question(NamedTuple):
    """One question as asked. `key` is a label, a text or labels in order, by the `kind` of reply.

    `head` says which entry it is of, and carries source, edition, evidence and cautions. `exercise` is what is asked of
    the working (`wrong-line:2`); "" where the whole is asked. `case` is which case of a family it is, the first being
    1; 0 where the entry has no cases. `stem` is all that is asked; where there is room for a table, `stem_parts` has
    the lines of its `sheet` as one, and its `picture` where it has one. `signed` says who has checked the entry against
    which edition (`Farah against BS 7671:2018+A4:2026`); "" where nobody is known to have.
    """

    head: Head
    seed: int
    kind: Kind
    stem: str
    given: tuple[Shown, ...]
    options: tuple[Option, ...]
    key: str
    answer: Answer | None
    diagnoses: tuple[Diagnosis, ...]
    working: tuple[WorkingLine, ...]
    verdict: str
    reason: str
    exercise: str = ""
    sheet: RecordSheet | None = None
    picture: Picture | None = None
    case: int = 0
    signed: str = ""

    @property
    def stem_parts(self) -> tuple[StemPart, ...]:
        """The stem, with its record sheet as a table between the words around it, and its picture behind it."""
        seen = () if self.picture is None else (self.picture,)
        if self.sheet is None:
            return (self.stem, *seen)
        before, _, after = self.stem.partition(self.sheet.text)
        return (before.rstrip("\n"), self.sheet.table, after.lstrip("\n"), *seen)

    @property
    def id(self) -> str:
        """The entry's id."""
        return self.head.id

    @property
    def topic(self) -> str:
        """The entry's topic."""
        return self.head.topic

    @property
    def name(self) -> str:
        """Entry and seed in one word, which recreates the question anywhere: `testing/ring/cross#7`.

        With what is asked of the working, where that is not the whole: `testing/ring/cross#7:wrong-line:2`.
        """
        return ":".join([f"{self.head.id}#{self.seed}", *filter(None, [self.exercise])])

    @property
    def labels(self) -> str:
        """The letters of the options, in order."""
        return LABELS[: len(self.options)]

    def option(self, label: str) -> Option:
        """The option of a letter. Raises KeyError when there is none."""
        return {option.label: option for option in self.options}[label]

    @property
    def as_text(self) -> str:
        """Stem, options and key as plain lines: kept with each answer, so that history survives edits of the bank."""
        options = [f"{option.label}  {option.text}" for option in self.options]
        return "\n".join([self.stem, *options, f"Answer: {self.key}"])

    @property
    def figures(self) -> dict[str, str]:
        """The givens and the results of the working as texts, by symbol."""
        given = {symbol(each.name): each.text for each in self.given}
        return given | {step.name: step.result for step in self.working}
