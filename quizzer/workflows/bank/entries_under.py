"""The entries of topics that somebody names. Apart from the sessions, so that `topics` opens no store."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.bank.mends import NAMED_TOPICS
from quizzer.bankfiles.listing import Listed
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.topic_names import nearest
from quizzer.errors import NotFound


def wanted(shelf: Shelf, topics: Sequence[str]) -> list[Listed]:
    """The entries of the topics or sub-topics named; all when none is. Raises NotFound."""
    listed = shelf.listed()
    for topic in topics:
        if not any(below(entry, topic) for entry in listed):
            near = " or ".join(map(repr, nearest(topic, listed)))
            hint = f"did you mean {near}? " if near else ""
            raise NotFound(f"no topic {topic!r}", mend=f"{hint}{NAMED_TOPICS}")
    return [entry for entry in listed if not topics or any(below(entry, topic) for topic in topics)]


def below(entry: Listed, topic: str) -> bool:
    """Whether an entry lies in a topic or sub-topic."""
    return entry.id.startswith(topic.strip("/") + "/")
