"""What was ruled about the questions of a paper, read from its corrections, and said beside its reports."""

from __future__ import annotations

import json
from collections.abc import Mapping

from quizzer.errors import StoreError
from quizzer.paper.record import Paper
from quizzer.paper.rulings import Rulings
from quizzer.store import Correction, Store
from quizzer.store.correction_values import in_force
from quizzer.values import NamedTuple

QUESTION = "question"


class Ruling(NamedTuple):
    """One ruling: the questions by name that are void, and those that have a letter right besides their key."""

    voided: tuple[str, ...] = ()
    also: Mapping[str, str] = {}

    def text(self) -> str:
        """As it is kept."""
        return json.dumps({"voided": self.voided, "also": dict(self.also)}, sort_keys=True)


def rulings_on(store: Store, paper: Paper) -> Rulings:
    """What holds of the questions of a paper now."""
    return rulings_of(store.corrections.of_paper(paper.id))


def rulings_of(corrections: tuple[Correction, ...]) -> Rulings:
    """What holds by these corrections, oldest first."""
    voided: set[str] = set()
    also: dict[str, frozenset[str]] = {}
    for one in in_force(corrections):
        if one.kind == QUESTION:
            ruling = read_ruling(one.becomes)
            voided |= set(ruling.voided)
            for name, letter in ruling.also.items():
                also[name] = also.get(name, frozenset()) | {letter}
    return Rulings(frozenset(voided), also)


def read_ruling(text: str) -> Ruling:
    """The ruling of its text. Raises StoreError."""
    try:
        found = json.loads(text)
        return Ruling(tuple(found["voided"]), dict(found["also"]))
    except (ValueError, KeyError, TypeError) as error:
        raise StoreError("a ruling about a question cannot be read", mend="restore a backup") from error
