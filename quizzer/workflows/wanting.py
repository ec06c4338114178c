"""The entries of topics that somebody names. Apart from the sessions, so that `topics` opens no store."""

from __future__ import annotations

import difflib
from collections.abc import Sequence

from quizzer.bankfiles.shelf import Listed, Shelf
from quizzer.errors import NotFound


def wanted(shelf: Shelf, topics: Sequence[str]) -> list[Listed]:
    """The entries of the topics or sub-topics named; all when none is. Raises NotFound."""
    listed = shelf.listed()
    for topic in topics:
        if not any(_below(entry, topic) for entry in listed):
            near = difflib.get_close_matches(topic, {entry.topic for entry in listed}, n=1)
            hint = f"did you mean {near[0]!r}? " if near else ""
            raise NotFound(f"no topic {topic!r}", mend=f"{hint}`quizzer topics` shows them all")
    return [entry for entry in listed if not topics or any(_below(entry, topic) for topic in topics)]


def _below(entry: Listed, topic: str) -> bool:
    return entry.id.startswith(topic.strip("/") + "/")
