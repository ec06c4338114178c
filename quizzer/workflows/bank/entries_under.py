"""The entries of topics that somebody names. Apart from the sessions, so that `topics` opens no store."""

from __future__ import annotations

import difflib
from collections.abc import Sequence

from quizzer.bankfiles.shelf import Listed, Shelf
from quizzer.errors import NotFound

_MOST = 3  # guesses that are told


def wanted(shelf: Shelf, topics: Sequence[str]) -> list[Listed]:
    """The entries of the topics or sub-topics named; all when none is. Raises NotFound."""
    listed = shelf.listed()
    for topic in topics:
        if not any(below(entry, topic) for entry in listed):
            near = " or ".join(map(repr, nearest(topic, listed)))
            hint = f"did you mean {near}? " if near else ""
            raise NotFound(f"no topic {topic!r}", mend=f"{hint}`quizzer topics` shows them all")
    return [entry for entry in listed if not topics or any(below(entry, topic) for topic in topics)]


def below(entry: Listed, topic: str) -> bool:
    """Whether an entry lies in a topic or sub-topic."""
    return entry.id.startswith(topic.strip("/") + "/")


def nearest(topic: str, listed: Sequence[Listed]) -> list[str]:
    """The topics or sub-topics that a mistyped name may mean: `testing/ring` for `testing/rnig`, both rings for `ring`.

    A name that no topic comes near is held to the last part of each sub-topic, then to the words of that part.
    """
    topic = topic.strip("/").lower()
    folders = dict.fromkeys(entry.id.rpartition("/")[0] for entry in listed)
    names = [*dict.fromkeys(entry.topic for entry in listed), *folders]
    if near := difflib.get_close_matches(topic, names, n=1, cutoff=0.75):
        return near
    lasts = [folder.rpartition("/")[2] for folder in folders]
    if near := difflib.get_close_matches(topic, lasts, n=1, cutoff=0.75):
        return [folder for folder, last in zip(folders, lasts, strict=True) if last == near[0]]
    return [folder for folder, last in zip(folders, lasts, strict=True) if topic in last.split("-")][:_MOST]
