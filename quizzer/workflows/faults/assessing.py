"""A set of diagnoses played for marks: in the time there is, each kept when it ends, in the store as an answer.

An exercise is kept as an answer to the question of the bank about a circuit of its shape: so its topic, its due day and
the estimates know of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import NamedTuple

from quizzer.bank.entries import Diagnose
from quizzer.bankfiles.shelf import Shelf
from quizzer.circuit.game.exercise import Exercise, State
from quizzer.circuit.game.marking import MarkedExercise, marked
from quizzer.errors import QuizzerError
from quizzer.schedule import Memory, Review, next_memory, quality
from quizzer.schedule.review import PLAYED
from quizzer.store import KnownBefore, Trainee
from quizzer.workflows.faults.drawing_sets import SetExercise, exercises_of
from quizzer.workflows.world import World

TOPIC = "faults"
MINUTES_EACH = 12  # where nobody says how long the set may take
_LEVELS = ("recall", "apply", "analyse")  # of the questions that stand for exercises of level 1, 2 and 3
_SET_ID = 12  # characters by which the exercises of one set know each other


class SetWishes(NamedTuple):
    """What a set is to be: one shape or all (None), the level, how many exercises in how many minutes, the seed."""

    shape: str | None
    level: int
    many: int
    minutes: float
    seed: int


class Sat(NamedTuple):
    """An exercise that has ended: what it was, its mark, the tests used, those of the best player, whether it is kept.

    Tests are counted until the fault was named.
    """

    title: str
    shape: str
    seed: int
    marked: MarkedExercise
    tests: int
    best: int
    kept: bool


@dataclass(slots=True)
class Assessment:
    """One trainee over one set; `until` is when the time is up, None before it began."""

    world: World
    trainee: Trainee
    wishes: SetWishes
    id: str
    exercises: Iterator[SetExercise]
    until: datetime | None = None
    now: SetExercise | None = None
    began: datetime | None = None
    done: list[Sat] = field(default_factory=list)

    @property
    def passed(self) -> int:
        """How many exercises are passed so far."""
        return sum(each.marked.passed for each in self.done)

    def next_exercise(self) -> Exercise | None:
        """The next exercise; None when all were played or the time is up. Drawing it takes nobody's time."""
        if self.over():
            return None
        before = self.world.now()
        self.now = next(self.exercises, None)
        self.began = self.world.now()
        minutes = timedelta(minutes=self.wishes.minutes)
        self.until = self.began + minutes if self.until is None else self.until + max(self.began - before, timedelta())
        return self.now.play if self.now else None

    def minutes_left(self) -> float:
        """Minutes until the time is up; 0 afterwards."""
        if self.until is None:
            return self.wishes.minutes
        return max(0.0, (self.until - self.world.now()) / timedelta(minutes=1))

    def over(self) -> bool:
        """Whether the time is up."""
        return self.minutes_left() <= 0

    def end(self, state: State, *, late: bool = False) -> Sat:
        """Mark the exercise as it stands and keep it. Raises StoreError."""
        drawn, began = self.now, self.began
        if drawn is None or began is None:
            raise ValueError("no exercise was begun")
        self.now = None
        found = marked(drawn.play, state, late=late)
        tests = sum(1 for step in state.steps[: state.named_at or None] if step.test and not step.again)
        kept = self._keep(drawn, found, began)
        sat = Sat(drawn.play.circuit.title, drawn.shape, drawn.seed, found, tests, drawn.tests, kept)
        self.done.append(sat)
        return sat

    def _keep(self, drawn: SetExercise, found: MarkedExercise, began: datetime) -> bool:
        """Keep it as an answer; False where the bank has no question about a circuit of its shape."""
        entry = question_about(self.world.shelf, drawn.shape, self.wishes.level)
        if entry is None:
            return False
        now, head = self.world.now(), entry.head
        grade = quality(found.passed, None)
        review = Review(
            id=f"{self.id}-{len(self.done) + 1}",
            trainee=self.trainee.id,
            entry=head.id,
            topic=head.id.partition("/")[0],
            seed=drawn.seed,
            digest=head.digest,
            asked=f"A diagnosis to be played: {drawn.play.circuit.title}. {drawn.play.complaint}",
            reply=": ".join(filter(None, found)),
            right=found.passed,
            rounded=False,
            slip=None,
            confidence=None,
            quality=grade,
            drill=False,
            answered_at=now,
            day=now.date(),
            seconds=max(0, int((now - began).total_seconds())),
            exercise=f"{PLAYED}:{self.wishes.level}:{self.id[:_SET_ID]}",
        )
        before = self.world.memory(self.trainee.id, review.entry)
        memory = self._memory(before, review, critical=head.safety_critical)
        self.world.store.record(review, memory, KnownBefore(before, self.world.fold_rules))
        return True

    def _memory(self, before: Memory | None, review: Review, *, critical: bool) -> Memory | None:
        """The memory it leaves; None for a second pass on one day, which shows nothing more."""
        if before is not None and before.last == review.day and review.right:
            return None
        return next_memory(before, review.quality, review.day, safety_critical=critical)


def assessment(world: World, trainee: Trainee, wishes: SetWishes) -> Assessment:
    """The set, with nothing drawn and no time running yet."""
    drawn = exercises_of(wishes.shape, wishes.level, wishes.seed, wishes.many)
    return Assessment(world, trainee, wishes, world.new_id(), drawn)


def question_about(shelf: Shelf, shape: str, level: int) -> Diagnose | None:
    """The question of the bank which fault a circuit of the shape has, at that level or near it; None without one."""
    found = [entry for entry in _diagnoses(shelf) if entry.shape == shape and entry.asks == "which-fault"]
    return min(found, key=lambda entry: abs(_level(entry) - level), default=None)


def _diagnoses(shelf: Shelf) -> Iterator[Diagnose]:
    for each in shelf.listed():
        if each.topic == TOPIC:
            with suppress(QuizzerError):  # one bad entry blocks itself
                entry = shelf.find(each.id)
                if isinstance(entry, Diagnose):
                    yield entry


def _level(entry: Diagnose) -> int:
    return _LEVELS.index(entry.head.level) + 1 if entry.head.level in _LEVELS else len(_LEVELS)
