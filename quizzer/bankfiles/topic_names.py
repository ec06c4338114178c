"""Topics and sub-topics by name: whether there is one, and which a mistyped name may mean."""

from __future__ import annotations

import difflib
from collections.abc import Sequence

from quizzer.bank.head_reading import ID
from quizzer.bankfiles.listing import Listed
from quizzer.bankfiles.shelf import NOT_TOPICS, Shelf

_MOST = 3  # guesses that are told


def is_topic(shelf: Shelf, topic: str) -> bool:
    """Whether the bank has a topic or sub-topic of that name, be it without entries so far."""
    parts = topic.split("/")
    if not all(ID.fullmatch(part) for part in parts) or parts[0] in NOT_TOPICS:
        return False
    if any((root / topic).is_dir() or (root / f"{topic}.toml").is_file() for root in shelf.roots):
        return True
    titles = shelf.topics()
    # A bank that has nothing of a topic yet cannot know its sub-topics.
    return topic in titles or (parts[0] in titles and not any((root / parts[0]).is_dir() for root in shelf.roots))


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
