"""The memory of an entry worked out anew from all its reviews: the same whenever and in whatever order they came."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from itertools import groupby
from typing import Final, NamedTuple

from quizzer.schedule.memory import Memory, next_memory
from quizzer.schedule.replaced import inherited
from quizzer.schedule.review import Review

SCRIPT_ID: Final = "paper-"  # what the id of a review from a script begins with
_NO_SEQUENCE: Final[Mapping[str, int]] = {}


class Folded(NamedTuple):
    """A memory, and the review that wrote it: the last that counted."""

    memory: Memory
    review: Review


def memory_of(
    reviews: Iterable[Review],
    *,
    safety_critical: bool = False,
    replaced: Sequence[Memory] = (),
    sequence: Mapping[str, int] = _NO_SEQUENCE,
) -> Folded | None:
    """What one trainee remembers of one entry after all these reviews of it; None when none of them counts.

    The reviews may come in any order. They count in the order of the `sequence` that the server gave them, by id (0
    for none: those come first), then of the time they were answered, then of their ids. Drills change nothing. The
    answers of one script to an entry count as one, the worst of them: they were given in one go. Of a diagnosis
    played for marks, a second pass on one day changes nothing. `replaced` are the memories of entries that this one
    took the place of: those answered by then are what its next answer builds on.
    """
    found: Folded | None = None
    for _, each in groupby(_ordered(reviews, sequence), _occasion):
        answers = tuple(each)
        found = _after(found, answers, safety_critical=safety_critical, replaced=replaced)
    return found


def _ordered(reviews: Iterable[Review], sequence: Mapping[str, int]) -> list[Review]:
    counting = [review for review in reviews if not review.drill]
    return sorted(counting, key=lambda one: (sequence.get(one.id, 0), one.answered_at, one.id))


def _occasion(review: Review) -> tuple[str, datetime]:
    """The same for what was answered in one go."""
    return SCRIPT_ID if review.id.startswith(SCRIPT_ID) else review.id, review.answered_at


def _after(
    found: Folded | None, answers: Sequence[Review], *, safety_critical: bool, replaced: Sequence[Memory]
) -> Folded | None:
    last = answers[-1]
    known = [memory for memory in replaced if memory.last <= last.day]
    before = inherited(found.memory if found else None, known)
    if last.played and last.right and before and before.last == last.day:
        return found
    worst = min(review.quality for review in answers)
    return Folded(next_memory(before, worst, last.day, safety_critical=safety_critical), last)
