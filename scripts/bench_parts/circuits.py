"""A question about a circuit, its proof of one answer included, against solving as many networks with plain numpy."""

from __future__ import annotations

import time
from random import Random
from statistics import median

from quizzer.circuit.game.actions import act
from quizzer.circuit.game.exercise import State, exercise, take
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.network import _impedances
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.question.rig.asking_faults import which_fault
from quizzer.question.rig.scene import Scene

LIMIT = 8.0  # a network for each suspect by plain numpy; the question reads most of them in several states
QUESTION_MS, STEP_MS = 50.0, 20.0
SOCKETS, ROUNDS = 12, 15


def measure() -> tuple[float, float, float]:
    """Milliseconds of a question on a 12-socket ring, its ratio to plain numpy, and of an interactive step."""
    import numpy as np

    questions, networks = [], 0
    for seed in range(ROUNDS):
        _impedances.cache_clear()
        dice = Random(seed).random
        start = time.perf_counter()
        asked = which_fault(_scene(dice), dice)
        if asked is not None:
            questions.append(time.perf_counter() - start)
            networks = max(networks, len(suspects(drawn("ring", SOCKETS, SOCKETS, Random(seed).random))))
    size = 3 * (SOCKETS + 1)
    matrix = np.eye(size) * 40 + np.ones((size, size))
    start = time.perf_counter()
    for _ in range(ROUNDS):
        for _ in range(networks):
            np.linalg.inv(matrix)
    plain = (time.perf_counter() - start) / ROUNDS
    question = median(questions)
    return question * 1000, question / plain, _step_ms()


def _scene(dice: Dice) -> Scene:
    circuit = drawn("ring", SOCKETS, SOCKETS, dice)
    tests = schedule(circuit)
    everything = suspects(circuit)
    return Scene(circuit, tests, further(circuit), tuple(readings(circuit, tests)), everything, everything)


def _step_ms() -> float:
    circuit = drawn("ring", SOCKETS, SOCKETS, Random(1).random)
    everything = suspects(circuit)
    play = exercise(circuit, everything[40], everything, (*schedule(circuit), *further(circuit)))
    state = State(left=play.cases)
    for action in ("isolate", "lock", "prove", "disconnect"):
        state, _ = act(play, state, action)
    slowest = 0.0
    for at in range(1, 30):
        start = time.perf_counter()
        state, _ = take(play, state, at)
        slowest = max(slowest, time.perf_counter() - start)
    return slowest * 1000
