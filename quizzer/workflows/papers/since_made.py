"""What became of a paper's entries since it was made. The paper keeps its questions: nothing depends on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from quizzer.bank.entries import Entry
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import BankError, NotFound, Refused
from quizzer.paper.record import Item, Paper
from quizzer.question.question import Question
from quizzer.workflows.exercises import digest_of, neighbours_in, question_of
from quizzer.workflows.papers.kept_questions import kept_question, kept_questions

_PARTS = {
    "stem": "what it asks",
    "options": "its options",
    "key": "its key",
    "working": "its working",
    "reason": "its reason",
    "verdict": "its verdict",
    "picture": "its picture",
}


class EntryChange(NamedTuple):
    """An entry that is not what it was, and how: "gone", or the parts that differ in words."""

    entry: str
    how: str


def changes_since(shelf: Shelf, paper: Paper) -> list[EntryChange]:
    """The entries of a paper that have changed since it was made, each once, in the order of its first form.

    Of a record without questions nothing is said: it can be used only with the bank that it was made from.
    """
    kept, near = kept_questions(paper), neighbours_in(shelf)
    items = {item.entry: item for form in reversed(paper.forms) for item in reversed(form.items)} if kept else {}
    found = []
    for item in reversed(items.values()):
        was = kept_question(paper, kept, item)
        entry = _entry_now(shelf, item)
        if was is None or (entry and digest_of(near, entry, item.exercise) == item.digest):
            continue
        if entry is None:
            found.append(EntryChange(item.entry, "gone"))
        elif entry.head.id != item.entry:
            found.append(EntryChange(item.entry, f"now part of {entry.head.id}"))
        else:
            try:
                now = question_of(near, entry, item.seed, item.exercise)
            except Refused:
                found.append(EntryChange(item.entry, "asked in another way"))
            else:
                found.append(EntryChange(item.entry, ", ".join(_differing(was, now)) or "nothing that is asked"))
    return found


def said_of_changes(changes: list[EntryChange], most: int = 5) -> str:
    """The changes in a sentence or two; "" where there are none."""
    if not changes:
        return ""
    named = "; ".join(f"{each.entry} ({each.how})" for each in changes[:most])
    more = f" and {len(changes) - most} more" if len(changes) > most else ""
    return f"Changed in the bank since this paper was made: {named}{more}. It keeps its questions as they were."


def _entry_now(shelf: Shelf, item: Item) -> Entry | None:
    try:
        return shelf.find(item.entry)
    except (NotFound, BankError):
        return None


def _differing(was: Question, now: Question) -> Iterator[str]:
    yield from (words for part, words in _PARTS.items() if getattr(was, part) != getattr(now, part))
    if was.head.source != now.head.source:
        yield "its source"
