"""What every entry carries, whatever its kind."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from quizzer.editions import Currency
from quizzer.errors import Place
from quizzer.values import NamedTuple

WRONG_SHOWN = 3  # wrong options beside the key of a question
OPTIONS = 1 + WRONG_SHOWN  # of a whole question; what is asked of a working may have one fewer


class Caution(NamedTuple):
    """Words shown beside dangerous work; `before` means before the options too."""

    id: str
    before: bool
    say: str
    defer: str


class Head(NamedTuple):
    """What every entry carries: its name, where it comes from, and how far it can be trusted.

    `facility` is the share of trainees judged to get it right, where an author judged it; `enemies` are entries that
    give this one away and may not stand in the same form; `replaces` are ids of entries that are no more and lead here.
    `kept_digest` stands for the content of an entry whose question a paper has kept.
    """

    id: str
    topic: str
    level: str
    source: str
    edition: str
    currency: Currency
    evidence: str
    cautions: tuple[Caution, ...]
    safety_critical: bool
    overrides: Mapping[str, str]
    facility: float | None
    enemies: tuple[str, ...]
    raw: Mapping[str, Any]
    place: Place
    replaces: tuple[str, ...] = ()
    kept_digest: str = ""

    @property
    def digest(self) -> str:
        """A short fingerprint of the entry's content: it changes when the text does, not when lines move."""
        if self.kept_digest:
            return self.kept_digest
        import hashlib  # only an answer that is kept, and a paper, need it: not every question shown
        import json

        return hashlib.sha256(json.dumps(self.raw, sort_keys=True, default=str).encode()).hexdigest()[:16]
