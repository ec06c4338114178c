"""Answers that arrive later than they were given: from a phone, late, twice, out of order."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.errors import Refused
from quizzer.schedule import FoldRules, Review
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.folding import refold, take_turns
from quizzer.store.recording import same
from quizzer.store.row_mapping import review_row


def receive(wire: Connection, trainee: str, reviews: Sequence[Review], rules: FoldRules) -> tuple[str, ...]:
    """Keep answers of one trainee, each once, and what they leave remembered; the ids that belong to other questions.

    The memory of an entry is worked out anew from all its reviews: in whatever order they come, it is the same.
    """
    rows = [(review, review_row(review)) for review in reviews]
    if any(review.trainee != trainee for review in reviews):
        raise ValueError(f"a review of somebody else than {trainee}")
    taken: list[str] = []
    changed: set[str] = set()
    with wire.transaction("write"):
        take_turns(wire, trainee)
        for review, row in rows:
            if wire.run(sql.RECORD_REVIEW, row).rowcount:
                changed |= set() if review.drill else {review.entry}
                continue
            try:
                same(wire, row)
            except Refused:
                taken.append(review.id)
        refold(wire, trainee, changed, rules)
    return tuple(taken)
