"""The bank at a glance: how much there is in each topic, and how far it can be trusted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quizzer.bank.entries import Card, Diagnose, Entry, Template
from quizzer.bank.families import Family, OrderFamily
from quizzer.bank.signoffs import Ledger
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import ledger
from quizzer.editions import CHANGED, LATEST, UNAFFECTED, UNKNOWN
from quizzer.errors import Issue
from quizzer.workflows.bank.entries_under import wanted


@dataclass(frozen=True, slots=True)
class TopicLine:
    """One topic: templates, cards, circuits to diagnose, families with their cases, and entries by evidence."""

    topic: str
    title: str
    templates: int
    cards: int
    families: int
    stems: int
    circuits: int
    published: int
    memory: int
    practice: int
    safety_critical: int


def overview(shelf: Shelf) -> tuple[tuple[TopicLine, ...], tuple[Issue, ...]]:
    """A line for each topic in teaching order, and complaints about entries that cannot be used."""
    entries: list[Entry] = []
    issues: list[Issue] = []
    for _, loaded in shelf.everything():
        entries += loaded.entries
        issues += loaded.issues
    titles = shelf.topics()
    topics = [*titles, *sorted({entry.head.topic for entry in entries} - set(titles))]
    lines = [_line(topic, titles.get(topic, topic), _of(topic, entries)) for topic in topics]
    return tuple(lines), tuple(issues + shelf.issues)


@dataclass(frozen=True, slots=True)
class CurrencyLine:
    """One topic: entries by whether their facts hold under the latest amendment, and those signed off against it."""

    topic: str
    unaffected: int
    changed: int
    unknown: int
    signed: int


def currency_lines(shelf: Shelf) -> tuple[CurrencyLine, ...]:
    """A line for each topic that has entries, in teaching order. Raises BankError for a damaged list of sign-offs."""
    told = ledger(*shelf.roots)
    entries = [entry for _, loaded in shelf.everything() for entry in loaded.entries]
    topics = list(dict.fromkeys(entry.head.topic for entry in entries))
    return tuple(_currency(topic, _of(topic, entries), told) for topic in topics)


def _currency(topic: str, entries: Sequence[Entry], told: Ledger) -> CurrencyLine:
    states = [entry.head.currency.state for entry in entries]
    signed = sum((found := told.signed(entry)) is not None and LATEST in found.edition for entry in entries)
    return CurrencyLine(topic, states.count(UNAFFECTED), states.count(CHANGED), states.count(UNKNOWN), signed)


@dataclass(frozen=True, slots=True)
class EntryLine:
    """One entry in a list: its id, what it is, and how far it was checked."""

    id: str
    kind: str
    evidence: str
    safety_critical: bool


def entry_lines(shelf: Shelf, topics: Sequence[str]) -> list[EntryLine]:
    """The entries of topics or sub-topics, in the order of the files. Raises NotFound for a topic that is not there."""
    ids = {listed.id for listed in wanted(shelf, topics)}
    entries = [entry for _, loaded in shelf.everything() for entry in loaded.entries if entry.head.id in ids]
    return [
        EntryLine(entry.head.id, _kind(entry), entry.head.evidence, entry.head.safety_critical) for entry in entries
    ]


def _kind(entry: Entry) -> str:
    match entry:
        case Template():
            return "template"
        case Diagnose():
            return "circuit"
        case Card():
            return "card"
        case Family() | OrderFamily():
            return f"family of {stems_of(entry)}"


def stems_of(family: Family | OrderFamily) -> int:
    """How many cases a family asks, or parts of its procedure."""
    return len(family.stems if isinstance(family, Family) else family.parts)


def _of(topic: str, entries: Sequence[Entry]) -> list[Entry]:
    return [entry for entry in entries if entry.head.topic == topic]


def _line(topic: str, title: str, entries: Sequence[Entry]) -> TopicLine:
    families = [entry for entry in entries if isinstance(entry, Family | OrderFamily)]
    evidence = [entry.head.evidence for entry in entries]
    return TopicLine(
        topic,
        title,
        sum(isinstance(entry, Template) for entry in entries),
        sum(isinstance(entry, Card) for entry in entries),
        len(families),
        sum(map(stems_of, families)),
        sum(isinstance(entry, Diagnose) for entry in entries),
        evidence.count("published"),
        evidence.count("memory"),
        evidence.count("practice"),
        sum(entry.head.safety_critical for entry in entries),
    )
