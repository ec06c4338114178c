"""Keeping an answer as it is given."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.errors import Refused
from quizzer.schedule import FoldRules, Memory, Review
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.folding import refold, remembered, take_turns
from quizzer.store.row_mapping import Row, memory_row, review_row
from quizzer.values import NamedTuple


class KnownBefore(NamedTuple):
    """What a memory was worked out from: what was remembered of the entry then, and the rules to work it out anew."""

    before: Memory | None
    rules: Callable[[], FoldRules]


def record(wire: Connection, review: Review, memory: Memory | None, known: KnownBefore | None = None) -> bool:
    """Keep one answered question and the memory it leaves; False if it is kept already.

    Where something else is remembered by now than was `known`, other answers have come in between: then the memory is
    worked out anew from all of them.
    """
    if review.drill and memory is not None:
        raise ValueError(f"review {review.id} is a drill and cannot change the schedule")
    row = review_row(review)
    with wire.transaction("write"):
        if not wire.run(sql.RECORD_REVIEW, row).rowcount:
            return same(wire, row)
        if memory is None:
            return True
        if known is not None and _came_between(wire, review, known):
            refold(wire, review.trainee, [review.entry], known.rules())
        else:
            wire.run(sql.RECORD_MEMORY, memory_row(review, memory))
    return True


def _came_between(wire: Connection, review: Review, known: KnownBefore) -> bool:
    """Whether something else is remembered now than was known, or the entry was answered on this day already.

    A phone may be some minutes ahead, over midnight too. What lies further ahead is of a wrong clock and is written
    over.
    """
    take_turns(wire, review.trainee)
    now = remembered(wire, review.trainee, review.entry)
    return now != known.before or (now is not None and 0 <= (now.last - review.day).days <= 1)


def same(wire: Connection, row: Row) -> bool:
    """False: the review found under its id is the same one. Refused when it is another question's."""
    (found,) = wire.run(sql.RECORDED, {"id": row["id"]}).fetchall()
    if tuple(found) != (row["trainee"], row["entry"], row["seed"]):
        raise Refused(
            f"the review id {row['id']} already belongs to another question",
            mend="make a new id for each question that is asked",
        )
    return False
