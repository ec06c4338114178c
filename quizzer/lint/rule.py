"""What a rule is, what it finds, and what it may know beside the entry it looks at."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from quizzer.bank.entries import Card, Entry
from quizzer.bank.families import Family
from quizzer.bank.fields import Path
from quizzer.bank.head import Head
from quizzer.errors import Place


@dataclass(frozen=True, slots=True)
class Context:
    """The bank around an entry: its folder's name, what its shared lists hold, and every lower-case word in use."""

    bank: str = "banks"
    slips: Collection[str] = ()
    cautions: Collection[str] = ()
    tables: Collection[str] = ()
    terms: Collection[str] = ()
    words: frozenset[str] = frozenset()


class Finding(NamedTuple):
    """One finding, not yet at its line: `path` is the key below the entry, or below the file where `head` is None."""

    code: str
    head: Head | None
    place: Place
    path: Path
    what: str
    mend: str


class Said(NamedTuple):
    """An option or a step of a card as it is written, and its key below the card."""

    path: Path
    text: str


class RenderedQuestion(NamedTuple):
    """An entry with its stems as they are asked, holes filled, and every option or step that is written out."""

    entry: Entry
    stems: tuple[str, ...]
    options: tuple[Said, ...]


AskedRule = Callable[[RenderedQuestion, Context], Iterator[Finding]]
FamilyRule = Callable[[Family, Context], Iterator[Finding]]
CardRule = Callable[[Card, Context], Iterator[Finding]]
BankRule = Callable[[Sequence[Entry], Context], Iterator[Finding]]


def finding(entry: Entry, code: str, path: Path, what: str, mend: str) -> Finding:
    """A finding about a key of an entry."""
    return Finding(code, entry.head, entry.head.place, path, what, mend)


def said(card: Card) -> tuple[Said, ...]:
    """The key and the wrong options of a card, or its steps in order."""
    if card.steps:
        return tuple(Said(("step", at, "say"), step.say) for at, step in enumerate(card.steps))
    wrong = (Said(("wrong", at, "say"), wrong.say) for at, wrong in enumerate(card.wrong))
    return (Said(("key",), card.key), *wrong)
