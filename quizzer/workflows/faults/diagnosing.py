"""A diagnosis to be played: the circuit, its fault and its history, by seed."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from quizzer.circuit.game.exercise import Exercise, Site, exercise
from quizzer.circuit.game.histories import history
from quizzer.circuit.game.tales import complaint
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.suspects import suspects_on_site
from quizzer.circuit.testing.further import barred, further
from quizzer.circuit.testing.on_site import on_site
from quizzer.circuit.testing.schedule import schedule
from quizzer.errors import UsageError

MISLABELLED, WEAK = 0.2, 0.15  # shares of exercises where proving dead fails at first
MOST_POINTS = {1: 4, 2: 6, 3: 8}


def played(shape: str | None, level: int, seed: int) -> Exercise:
    """The exercise of a shape (None: one of all), a level and a seed. Raises UsageError for an unknown shape."""
    if shape is not None and shape not in SHAPES:
        raise no_shape(shape)
    dice = Random(f"diagnose {shape or ''} {level}#{seed}").random
    chosen = shape or list(SHAPES)[int(dice() * len(SHAPES))]
    circuit = drawn(chosen, 3, MOST_POINTS[level], dice)
    everything = suspects_on_site(circuit)
    hidden = [fault for fault in everything if fault.row.level <= level]
    kinds = sorted({fault.kind for fault in hidden})
    kind = kinds[int(dice() * len(kinds))]
    having = [fault for fault in hidden if fault.kind == kind]
    tests = (*schedule(circuit), *further(circuit), *on_site(circuit), *barred(circuit))
    fault = having[int(dice() * len(having))]
    before = history(circuit.shape, dice)
    play = exercise(circuit, fault, everything, tests, dice)
    return replace(play, complaint=complaint(circuit, fault), history=before, site=_site(shape, level, seed))


def no_shape(shape: str) -> UsageError:
    """The refusal of an unknown shape."""
    return UsageError(f"no shape {shape!r}", mend="write one of " + ", ".join(SHAPES))


def _site(shape: str | None, level: int, seed: int) -> Site:
    """Whether the chart or the indicator lets one down: not among first faults, and by dice of its own."""
    dice = Random(f"site {shape or ''} {level}#{seed}").random
    mislabelled, weak = dice() < MISLABELLED, dice() < WEAK
    return Site(level > 1 and mislabelled, level > 1 and weak)
