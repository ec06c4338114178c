"""The memory of an entry worked out anew from all its reviews: the same whenever and in whatever order they came."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime, timedelta
from itertools import groupby
from typing import Final

from quizzer.schedule.memory import Memory, next_memory
from quizzer.schedule.quality import PASSED
from quizzer.schedule.replaced import inherited
from quizzer.schedule.review import Review
from quizzer.values import NamedTuple

SCRIPT_ID: Final = "paper-"  # what the id of a review from a script begins with
_MOMENT: Final = timedelta(microseconds=1)
_NO_FORWARDS: Final[Mapping[str, str]] = {}


class FoldRules(NamedTuple):
    """What folding needs of the bank: the safety-critical entries, and by each replaced entry the one in its place."""

    critical: frozenset[str] = frozenset()
    forwards: Mapping[str, str] = _NO_FORWARDS

    def replaced_by(self, entry: str) -> tuple[str, ...]:
        """The entries that this one took the place of."""
        return tuple(sorted(old for old, new in self.forwards.items() if new == entry))


class Folded(NamedTuple):
    """A memory, and the review that wrote it: the last that counted."""

    memory: Memory
    review: Review


def memory_of(
    reviews: Iterable[Review], *, safety_critical: bool = False, replaced: Sequence[Memory] = ()
) -> Folded | None:
    """What one trainee remembers of one entry after all these reviews of it; None when none of them counts.

    The reviews may come in any order. Those of one device count in the order of its own sequence, whatever its clock
    said; else they count in the order of the time they were answered, then of their ids. Drills change nothing. The
    answers of one script to an entry count as one, the worst of them: they were given in one go. A second pass on one
    day changes nothing: it shows nothing more. `replaced` are the memories of entries that this one took the place of:
    those answered by then are what its next answer builds on.
    """
    found: Folded | None = None
    for _, each in groupby(_ordered(reviews), _occasion):
        answers = tuple(each)
        found = _after(found, answers, safety_critical=safety_critical, replaced=replaced)
    return found


def _ordered(reviews: Iterable[Review]) -> list[Review]:
    counting = [review for review in reviews if not review.drill]
    devices: dict[str, list[Review]] = {}
    for each in counting:
        devices.setdefault(each.device or "", []).append(each)
    own = devices.pop("", [])
    return sorted((*own, *(each for one in devices.values() for each in _in_turn(one))), key=_when)


def _when(review: Review) -> tuple[datetime, str]:
    return review.answered_at, review.id


def _in_turn(reviews: Sequence[Review]) -> list[Review]:
    """The reviews of one device, each dated before those that it gave later: a clock that was ahead is put back."""
    last_first = sorted(reviews, key=lambda one: (one.sequence or 0, *_when(one)), reverse=True)
    placed = last_first[:1]
    for each in last_first[1:]:
        after = placed[-1]
        ahead = each.answered_at >= after.answered_at
        placed.append(each._replace(answered_at=after.answered_at - _MOMENT, day=after.day) if ahead else each)
    return placed


def _occasion(review: Review) -> tuple[str, datetime]:
    """The same for what was answered in one go."""
    return SCRIPT_ID if review.id.startswith(SCRIPT_ID) else review.id, review.answered_at


def _after(
    found: Folded | None, answers: Sequence[Review], *, safety_critical: bool, replaced: Sequence[Memory]
) -> Folded | None:
    last = answers[-1]
    known = [memory for memory in replaced if memory.last <= last.day]
    before = inherited(found.memory if found else None, known)
    worst = min(review.quality for review in answers)
    if found and before and before.last == last.day and worst >= PASSED:
        return found._replace(review=last)
    return Folded(next_memory(before, worst, last.day, safety_critical=safety_critical), last)
