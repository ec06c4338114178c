"""Memories written anew from the reviews that are kept, inside the transaction that changed those."""

from __future__ import annotations

from collections.abc import Collection

from quizzer.schedule import Folded, FoldRules, Memory, memory_of
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.row_mapping import memory_row, review_of, standing_of


def take_turns(wire: Connection, trainee: str) -> None:
    """Wait until nobody else changes what a trainee remembers, to the end of this transaction."""
    if wire.kind == "postgresql":
        wire.run(sql.LOCK_TRAINEE, {"trainee": trainee})


def remembered(wire: Connection, trainee: str, entry: str) -> Memory | None:
    """What is kept of an entry, inside a transaction."""
    rows = wire.run(sql.MEMORY_OF, {"trainee": trainee, "entry": entry}).fetchall()
    return standing_of(rows[0]).memory if rows else None


def refold(wire: Connection, trainee: str, entries: Collection[str], rules: FoldRules) -> None:
    """Write what a trainee remembers of these entries anew, and of those that took their place, if they are known."""
    successors = {rules.forwards[entry] for entry in entries if entry in rules.forwards}
    # What a replaced entry leaves is needed for the one in its place.
    replaced = [entry for entry in sorted(entries) if entry in rules.forwards]
    for entry in (*replaced, *sorted((successors | set(entries)) - set(replaced))):
        wire.run(sql.FORGET_MEMORY, {"trainee": trainee, "entry": entry})
        if found := _folded(wire, trainee, entry, rules):
            wire.run(sql.RECORD_MEMORY, memory_row(found.review, found.memory))


def _folded(wire: Connection, trainee: str, entry: str, rules: FoldRules) -> Folded | None:
    rows = wire.run(sql.REVIEWS_OF_ENTRY, {"trainee": trainee, "entry": entry}).fetchall()
    olds = [remembered(wire, trainee, old) for old in rules.replaced_by(entry)]
    known = [memory for memory in olds if memory]
    return memory_of(map(review_of, rows), safety_critical=entry in rules.critical, replaced=known)
