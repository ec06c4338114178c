"""A question about a circuit, its proof of one answer included, against solving as many networks with plain numpy."""

from __future__ import annotations

import time
from collections.abc import Iterator
from random import Random
from statistics import median

from quizzer.circuit.commissioning.actions import act as act_on
from quizzer.circuit.commissioning.marking import perfect_records
from quizzer.circuit.commissioning.state import Command
from quizzer.circuit.commissioning.state import State as Installed
from quizzer.circuit.game.actions import act
from quizzer.circuit.game.exercise import State, exercise
from quizzer.circuit.game.taking import take
from quizzer.circuit.installation.checks import DEAD, checks_of
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.network import _impedances, network_of
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.question.rig.asking_faults import which_fault
from quizzer.question.rig.scene import Scene
from quizzer.workflows.faults.commissioning import commissioned
from scripts.bench_parts.promise import Promise, Stopped, seconds

LIMIT = 8.0  # a network for each suspect by plain numpy; the question reads most of them in several states
STEP_LIMIT = 4.0
WAYS = 14
NETWORKS = 100  # about as many as the readings of so many ways ask for
WHOLE_LIMIT, WAY_LIMIT = 20.0, 1.5
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
    yield from _of_installations(median(plain) / len(suspects(drawn("ring", SOCKETS, SOCKETS, Random(1).random))))


def _of_installations(inversion: float) -> Iterator[Promise]:
    """An installation of 14 ways with all its readings, and the slowest test of one way: times plain inversions."""
    wholes = []
    for seed in (seed for seed in range(80) if len(wholes) < ROUNDS):
        _impedances.cache_clear()
        network_of.cache_clear()
        begun = time.perf_counter()
        play = commissioned("workshop", 3, seed, periodic=False)
        if len(play.sound.ways) == WAYS:
            perfect_records(play, Installed())
            wholes.append(time.perf_counter() - begun)
    if not wholes:
        raise Stopped(f"no seed gave {WAYS} ways")
    each = inversion * NETWORKS
    yield Promise(
        f"an installation of {WAYS} ways with its readings", median(wholes) / each, "times plain numpy", WHOLE_LIMIT
    )
    yield Promise("a test of one way, the slowest", _slowest_way() / each, "times plain numpy", WAY_LIMIT)


def _slowest_way() -> float:
    """Seconds of the slowest test of a way, each the median of some runs."""
    play = commissioned("workshop", 3, 1, periodic=False)
    state = Installed(locked=True, proved=True, loads_out=True, nulled=True)
    slowest = 0.0
    for way in play.sound.ways:
        for check in (each for each in checks_of(way) if each in DEAD):
            command = Command("test", (way.number,), check)
            slowest = max(slowest, median(seconds(lambda todo=command: act_on(play, state, todo)) for _ in range(3)))
    return slowest


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
