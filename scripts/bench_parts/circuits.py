"""A question about a circuit, its proof of one answer included, against solving as many networks with plain numpy."""

from __future__ import annotations

import time
from collections.abc import Iterator
from random import Random
from statistics import median

from quizzer.circuit.game.actions import act
from quizzer.circuit.game.exercise import State, exercise
from quizzer.circuit.game.taking import take
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.network import _impedances
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.question.rig.asking_faults import which_fault
from quizzer.question.rig.scene import Scene
from scripts.bench_parts.promise import Promise, Stopped

LIMIT = 8.0  # a network for each suspect by plain numpy; the question reads most of them in several states
STEP_LIMIT = 4.0
SOCKETS, ROUNDS, STEPS = 12, 15, 30


def measure() -> Iterator[Promise]:
    """A question on a 12-socket ring, and a step of a diagnosis: times a plain inversion for each suspect."""
    questions, plain = [], []
    for seed in range(ROUNDS):
        _impedances.cache_clear()
        dice = Random(seed).random
        begun = time.perf_counter()
        asked = which_fault(_scene(dice), dice)
        if asked is not None:
            questions.append(time.perf_counter() - begun)
            plain.append(_inversions(len(suspects(drawn("ring", SOCKETS, SOCKETS, Random(seed).random)))))
    if not questions:
        raise Stopped("no seed gave a question")
    name = f"a question on a {SOCKETS}-socket ring, one answer proven"
    yield Promise(name, median(questions) / median(plain), "times plain numpy", LIMIT)
    yield Promise(
        "a step of a diagnosis, the slowest", _slowest_step() / median(plain), "times plain numpy", STEP_LIMIT
    )


def _inversions(networks: int) -> float:
    """Seconds to invert so many matrices of the ring's size."""
    import numpy as np

    size = 3 * (SOCKETS + 1)
    matrix = np.eye(size) * 40 + np.ones((size, size))
    begun = time.perf_counter()
    for _ in range(networks):
        np.linalg.inv(matrix)
    return time.perf_counter() - begun


def _scene(dice: Dice) -> Scene:
    circuit = drawn("ring", SOCKETS, SOCKETS, dice)
    tests = schedule(circuit)
    everything = suspects(circuit)
    return Scene(circuit, tests, further(circuit), tuple(readings(circuit, tests)), everything, everything)


def _slowest_step() -> float:
    """Seconds of the slowest test taken; the first is left out, it opens what all need."""
    circuit = drawn("ring", SOCKETS, SOCKETS, Random(1).random)
    everything = suspects(circuit)
    play = exercise(circuit, everything[40], everything, (*schedule(circuit), *further(circuit)))
    state = State()
    for action in ("isolate all", "lock", "prove indicator", "prove dead", "prove indicator", "disconnect"):
        state, _ = act(play, state, action)
    taken = []
    for at in (n for n in play.allowed if n < STEPS):
        begun = time.perf_counter()
        state, _ = take(play, state, at)
        taken.append(time.perf_counter() - begun)
    return max(taken[1:])
