"""The exercises of an assessed set: shapes in turn, and sets of one length equally hard."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import NamedTuple

from quizzer.circuit.game.advice import best_way, takes_longer
from quizzer.circuit.game.exercise import Exercise
from quizzer.circuit.model.drawing import SHAPES
from quizzer.workflows.faults.diagnosing import played

TESTS_EACH = {1: 8, 2: 8, 3: 10}  # by level: tests that the best player needs, on average over a set, whichever it is
LEAST_TESTS, MOST_TESTS = (
    2,
    14,
)  # what a look or one test tells is no exercise for marks; of a long one there is no time
TRIES = 9  # exercises drawn for a place, of which that one is taken which keeps the set to its average
MOST_TRIES = 24  # while all of them are too short or too long
NEAR = 2  # tests from it, at which no other one is drawn
_SEEDS = 1_000_000


class SetExercise(NamedTuple):
    """An exercise of a set: its shape and seed, which recreate it, and how many tests the best player needs."""

    shape: str
    seed: int
    play: Exercise
    tests: int


def exercises_of(shape: str | None, level: int, seed: int, count: int) -> Iterator[SetExercise]:
    """So many exercises, each drawn when it is asked for; `shape` None takes every shape in turn, shuffled.

    How hard one is goes by the tests of the best player: who does not know the fault and takes the next best test each
    time, in the trade's order. After each exercise the set's sum is as near to `TESTS_EACH` for each as draws allow.
    Raises UsageError for an unknown shape.
    """
    dice = Random(f"assessed {shape or ''} {level}#{seed}").random
    shapes = [shape] if shape else sorted(SHAPES, key=lambda _: dice())
    spent = 0
    for number in range(count):
        wanted = TESTS_EACH[level] * (number + 1) - spent
        seeds = [1 + int(dice() * _SEEDS) for _ in range(MOST_TRIES)]
        found = _nearest(shapes[number % len(shapes)], level, wanted, seeds)
        spent += found.tests
        yield found


def _nearest(shape: str, level: int, wanted: int, seeds: list[int]) -> SetExercise:
    """The exercise nearest to the tests wanted; one that is too short or too long, only for want of others."""
    best: SetExercise | None = None
    for tried, seed in enumerate(seeds, 1):
        play = played(shape, level, seed)
        if best is None or not takes_longer(play, _most(best, wanted)):
            drawn = SetExercise(shape, seed, play, len(best_way(play)))
            best = drawn if best is None or _miss(drawn, wanted) < _miss(best, wanted) else best
        beyond, miss = _miss(best, wanted)
        if not beyond and (miss <= NEAR or tried >= TRIES):
            break
    if best is None:
        raise ValueError("no seeds to draw from")
    return best


def _most(best: SetExercise, wanted: int) -> int:
    """The most tests that an exercise can have which is nearer than the best so far."""
    beyond, miss = _miss(best, wanted)
    return max(MOST_TESTS, wanted + miss - 1) if beyond else min(MOST_TESTS, wanted + miss - 1)


def _miss(drawn: SetExercise, wanted: int) -> tuple[bool, int]:
    return not LEAST_TESTS <= drawn.tests <= MOST_TESTS, abs(drawn.tests - wanted)
