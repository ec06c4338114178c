"""What may stand in a paper: entries as candidates, with how hard each is taken to be."""

from __future__ import annotations

import re
from typing import NamedTuple

from quizzer.bank.entries import Card, Entry, Template
from quizzer.bank.families import OrderFamily

# Judged facility where nobody has judged the entry itself: our own starting values, to be replaced by answers.
BY_LEVEL = {"recall": 0.75, "apply": 0.65, "analyse": 0.50}
# So many answers weigh as much as the judgement.
JUDGEMENT = 20.0

_WORD = re.compile(r"[a-z]{4,}")
_STOP = frozenset(
    [
        "what",
        "which",
        "when",
        "where",
        "that",
        "this",
        "with",
        "from",
        "have",
        "does",
        "into",
        "than",
        "then",
        "they",
        "them",
        "their",
        "there",
        "will",
        "would",
        "must",
        "should",
        "could",
        "about",
        "after",
        "before",
        "between",
        "under",
        "over",
        "only",
        "also",
        "each",
        "other",
        "more",
        "most",
        "some",
        "such",
        "very",
        "take",
        "given",
        "reads",
        "read",
        "find",
        "finds",
        "asks",
        "asked",
        "says",
        "said",
        "made",
        "make",
        "does",
        "done",
    ]
)


class Observed(NamedTuple):
    """Answers seen of an entry: how many, and how many of them right."""

    answers: int
    right: int


class Candidate(NamedTuple):
    """An entry as the assembly sees it. `words` are content words of its question, `key_words` those of its key.

    `exercises` are those of the blueprint that can be asked of its working.
    """

    id: str
    level: str
    calculation: bool
    safety_critical: bool
    facility: float
    used: bool
    words: frozenset[str]
    key_words: frozenset[str]
    enemies: tuple[str, ...]
    exercises: frozenset[str] = frozenset()


def candidate(entry: Entry, observed: Observed | None, used: bool) -> Candidate | None:
    """The candidate of an entry; None for one that cannot be answered with a letter (an order card, a typed answer)."""
    if isinstance(entry, OrderFamily) or (isinstance(entry, Card) and entry.steps):
        return None
    if isinstance(entry, Template) and entry.form == "number":
        return None
    asks = " ".join(ask if isinstance(ask, str) else "".join(ask.pieces[::2]) for ask in entry.ask)
    key = entry.key if isinstance(entry, Card) else ""
    return Candidate(
        id=entry.head.id,
        level=entry.head.level,
        calculation=isinstance(entry, Template),
        safety_critical=entry.head.safety_critical,
        facility=expected_facility(entry, observed),
        used=used,
        words=content_words(f"{asks} {key}"),
        key_words=content_words(key),
        enemies=entry.head.enemies,
    )


def expected_facility(entry: Entry, observed: Observed | None) -> float:
    """The share of trainees expected to get it right: what was observed, shrunk towards what was judged."""
    judged = entry.head.facility if entry.head.facility is not None else BY_LEVEL[entry.head.level]
    if observed is None or not observed.answers:
        return judged
    return (observed.right + JUDGEMENT * judged) / (observed.answers + JUDGEMENT)


def content_words(text: str) -> frozenset[str]:
    """Words of four letters or more that carry meaning; numbers and their units are masked."""
    return frozenset(_WORD.findall(text.lower())) - _STOP
