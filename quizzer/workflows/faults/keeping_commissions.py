"""A commissioning played for marks, kept in the store as an answer to the question of the order of verification.

So its topic, its due day and the estimates know of it, as they do of a diagnosis.
"""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime
from typing import NamedTuple

from quizzer.bank.head import Head
from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.marking import PARTS, MarkedCommission
from quizzer.errors import QuizzerError
from quizzer.schedule import Memory, Review, next_memory, quality
from quizzer.schedule.review import COMMISSIONED
from quizzer.store import Trainee
from quizzer.workflows.world import World

ENTRY = "testing/sequence/verification-in-order"


class EndedCommission(NamedTuple):
    """A commissioning that has ended: what it was, by which seed, its marks, whether the time was up, when it began."""

    play: Commission
    seed: int
    found: MarkedCommission
    late: bool
    began: datetime


def keep_commission(world: World, trainee: Trainee, ended: EndedCommission) -> bool:
    """Keep its mark; False where the bank has no question of the order of verification. Raises StoreError."""
    head = _head(world)
    if head is None:
        return False
    now, passed = world.now(), ended.found.passed and not ended.late
    review = Review(
        id=world.new_id(),
        trainee=trainee.id,
        entry=head.id,
        topic=head.id.partition("/")[0],
        seed=ended.seed,
        digest=head.digest,
        asked=f"{'Inspection' if ended.play.periodic else 'Commissioning'} played: {ended.play.sound.title}.",
        reply=f"{mark_words(ended)}: {_counts(ended.found)}",
        right=passed,
        rounded=False,
        slip=None,
        confidence=None,
        quality=quality(passed, None),
        drill=False,
        answered_at=now,
        day=now.date(),
        seconds=max(0, int((now - ended.began).total_seconds())),
        exercise=f"{COMMISSIONED}:{ended.play.level}:{ended.play.sound.size}",
    )
    world.store.record(review, _memory(world, review, critical=head.safety_critical))
    return True


def mark_words(ended: EndedCommission) -> str:
    """The mark in a word or two."""
    if ended.found.stopped:
        return "stopped unsafe"
    if ended.late:
        return "out of time"
    return "passed" if ended.found.passed else "not passed"


def _counts(found: MarkedCommission) -> str:
    return ", ".join(f"{part} {right} of {of}" for part in PARTS for right, of in [found.counted(part)])


def _head(world: World) -> Head | None:
    with suppress(QuizzerError):
        return world.shelf.find(ENTRY).head
    return None


def _memory(world: World, review: Review, *, critical: bool) -> Memory | None:
    """The memory it leaves; None for a second pass on one day, which shows nothing more."""
    before = world.memory(review.trainee, review.entry)
    if before is not None and before.last == review.day and review.right:
        return None
    return next_memory(before, review.quality, review.day, safety_critical=critical)
