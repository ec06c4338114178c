"""A diagnosis to be played: the circuit and its fault by seed, and what became of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from random import Random

from quizzer.circuit.drawing import SHAPES, drawn
from quizzer.circuit.exercise import Exercise, State, exercise, same
from quizzer.circuit.measuring import measured
from quizzer.circuit.suspects import suspects
from quizzer.circuit.testing import barred, further, schedule
from quizzer.circuit.worth import best_of, best_way, left_on_average, surviving
from quizzer.errors import UsageError
from quizzer.question.diagnosing import KINDS

MOST_POINTS = {1: 4, 2: 6, 3: 8}


def played(shape: str | None, level: int, seed: int) -> Exercise:
    """The exercise of a shape (None: one of all), a level and a seed. Raises UsageError for an unknown shape."""
    if shape is not None and shape not in SHAPES:
        raise UsageError(f"no shape {shape!r}", mend="write one of " + ", ".join(SHAPES))
    dice = Random(f"diagnose {shape or ''} {level}#{seed}").random
    chosen = shape or list(SHAPES)[int(dice() * len(SHAPES))]
    circuit = drawn(chosen, 3, MOST_POINTS[level], dice)
    everything = suspects(circuit)
    hidden = [fault for fault in everything if not KINDS[level] or fault.kind in KINDS[level]]
    kinds = sorted({fault.kind for fault in hidden})
    kind = kinds[int(dice() * len(kinds))]
    having = [fault for fault in hidden if fault.kind == kind]
    tests = (*schedule(circuit), *further(circuit), *barred(circuit))
    play = exercise(circuit, having[int(dice() * len(having))], everything, tests)
    return replace(play, true=play.true._replace(values=measured(tests, play.true.values, dice)))


@dataclass(frozen=True, slots=True)
class Worth:
    """One test of the replay: what it was, the suspects before and after, and the best test there would have been."""

    say: str
    before: int
    after: int
    better: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a diagnosis ended: right or not, tests used against the fewest, and each test's worth."""

    right: bool
    used: int
    fewest: int
    best_way: tuple[str, ...]
    replay: tuple[Worth, ...]


def outcome(play: Exercise, state: State) -> Outcome:
    """How it ended, and the replay."""
    live = play.dead_shows
    able = [n for n, test in enumerate(play.tests) if not (test.never or (test.instrument.live and live))]
    way = tuple(play.tests[n].say for n in best_way(play.tests, able, play.cases, play.true))
    right = state.finished or (state.named is not None and same(play, state.named))
    return Outcome(right, len(state.taken), len(way), way, tuple(_replay(play, state, able)))


def _replay(play: Exercise, state: State, able: list[int]) -> Iterator[Worth]:
    left = play.cases
    for taken in state.taken:
        test = play.tests[taken.test]
        top, fewest = best_of(play.tests, able, left)
        own = left_on_average(test, [case.values[taken.test] for case in left])
        yield Worth(test.say, taken.before, taken.after, play.tests[top].say if fewest < own else "")
        left = surviving(test, taken.test, play.true.values[taken.test], left)
