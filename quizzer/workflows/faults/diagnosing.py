"""A diagnosis to be played: the circuit, its fault and its history, by seed."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from quizzer.circuit.game.exercise import Exercise, Site, exercise
from quizzer.circuit.game.histories import history
from quizzer.circuit.game.tales import complaint
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import Fault
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.model.suspects import suspects, suspects_on_site
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.further import barred, further
from quizzer.circuit.testing.on_site import live_on_site, on_site
from quizzer.circuit.testing.schedule import schedule
from quizzer.errors import UsageError

MISLABELLED, WEAK = 0.2, 0.15  # shares of exercises where proving dead fails at first
MOST_POINTS = {1: 4, 2: 6, 3: 8}
# The share of exercises with a fault that no record sheet of a question shows, and the first seed that can have one:
# exercises that were noted by their seed before there were such faults stay what they were.
ON_SITE_ALONE, FIRST_SEED = 0.35, 200


def played(shape: str | None, level: int, seed: int) -> Exercise:
    """The exercise of a shape (None: one of all), a level and a seed. Raises UsageError for an unknown shape."""
    if shape is not None and shape not in SHAPES:
        raise no_shape(shape)
    dice = Random(f"diagnose {shape or ''} {level}#{seed}").random
    chosen = shape or list(SHAPES)[int(dice() * len(SHAPES))]
    circuit = drawn(chosen, 3, MOST_POINTS[level], dice)
    everything = suspects_on_site(circuit)
    share = ON_SITE_ALONE if seed >= FIRST_SEED else 0.0
    fault = _hidden(circuit, level, everything, dice, share, Random(f"on site {shape or ''} {level}#{seed}").random)
    tests = (*schedule(circuit), *further(circuit), *on_site(circuit), *barred(circuit))
    before = history(circuit.shape, dice)
    play = exercise(circuit, fault, everything, tests, dice, live_on_site(circuit))
    return replace(play, complaint=complaint(circuit, fault), history=before, site=_site(shape, level, seed))


def _hidden(
    circuit: Circuit, level: int, everything: tuple[Fault, ...], dice: Dice, share: float, other: Dice
) -> Fault:
    """The fault, a kind as likely as another: of those that questions know, or by other dice of those on site alone."""
    usual = sorted({fault.kind for fault in suspects(circuit) if fault.row.level <= level})
    kind, at = usual[int(dice() * len(usual))], dice()
    having = [fault for fault in everything if fault.kind == kind]
    alone = sorted({fault.kind for fault in everything if fault.row.level <= level} - set(usual))
    if alone and (other() < share or not having):
        kind, at = alone[int(other() * len(alone))], other()
        having = [fault for fault in everything if fault.kind == kind]
    return having[int(at * len(having))]


def no_shape(shape: str) -> UsageError:
    """The refusal of an unknown shape."""
    return UsageError(f"no shape {shape!r}", mend="write one of " + ", ".join(SHAPES))


def _site(shape: str | None, level: int, seed: int) -> Site:
    """Whether the chart or the indicator lets one down: not among first faults, and by dice of its own."""
    dice = Random(f"site {shape or ''} {level}#{seed}").random
    mislabelled, weak = dice() < MISLABELLED, dice() < WEAK
    return Site(level > 1 and mislabelled, level > 1 and weak)
