"""No tale contradicts its fault: what is said to be dead, warm or tripping is so in the circuit that is drawn."""

from itertools import product
from random import Random

import pytest

from quizzer.circuit.game.tales import complaint
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.network import Branch, resistances
from quizzer.circuit.model.suspects import suspects_on_site
from quizzer.circuit.model.switching import works
from quizzer.circuit.model.wiring import LIGHTS

SINGLE_PHASE = [shape for shape in SHAPES if shape not in {"three-phase", *STARTERS}]
# What trips an RCD with something else or by itself; the last once the neutral of another circuit carries its load.
TRIPS = {
    "neutral-earth-short",
    "neutral-earth-reversed",
    "low-line-earth",
    "standing-leakage",
    "rcd-sensitive",
    "load-leaks",
    "leakages-add",
    "borrowed-neutral",
    "neutrals-joined",
}


def told(shape, seeds=3):
    """Every suspect of some circuits, with what the customer says of it."""
    for seed in range(seeds):
        circuit = drawn(shape, 3, 8, Random(seed).random)
        for fault in suspects_on_site(circuit):
            yield circuit, fault, complaint(circuit, fault)


def working(circuit):
    """How many points are fed: of lights, that can be lit at all."""
    count = len(circuit.points)
    if circuit.shape in LIGHTS:
        every = list(product((0, 1), repeat=len(circuit.switches)))
        return sum(any(works(circuit, at, (f"A{k}", f"B{k}")) for at in every) for k in range(1, count + 1))
    legs = [Branch(f"{core}0", f"{core}x", 0.0) for core in "LN"] if circuit.shape == "ring" else []
    pairs = [(f"{core}0", circuit.node(f"{core}{k}")) for k in range(1, count + 1) for core in "LN"]
    ohms = resistances([*circuit.branches(tuple(0 for _ in circuit.switches)), *legs], pairs)
    return sum(max(ohms[at : at + 2]) < 1000 for at in range(0, len(ohms), 2))


@pytest.mark.parametrize("shape", SINGLE_PHASE)
def test_what_is_said_to_be_dead_is_dead_and_nothing_else(shape):
    for circuit, fault, words in told(shape):
        if fault.kind in {"open-line", "open-neutral"}:
            fed, count = working(with_fault(circuit, fault)), len(circuit.points)
            some = "Part of it" in words or "some settings" in words
            assert ("None of it works" in words) is (fed == 0), (fault.say, words)
            assert some is (0 < fed < count or "strapper" in fault.say), (fault.say, words)
            assert words.startswith("Nothing seems wrong") is (fed == count and not some), (fault.say, words)


@pytest.mark.parametrize("shape", SHAPES)
def test_only_a_conductor_with_a_current_in_it_gets_warm(shape):
    for circuit, fault, words in told(shape):
        if "warm" in words or "flickers" in words:
            assert fault.kind in {"loose-joint", "loose-at-main-switch"}
            assert "protective" not in fault.say
            assert "earth" not in fault.say
            assert ("flickers" in words) is (circuit.shape in LIGHTS)


@pytest.mark.parametrize("shape", SHAPES)
def test_only_an_rcd_trips_of_a_current_to_earth(shape):
    for circuit, fault, words in told(shape):
        if "trip" in words and "not tripped" not in words:
            assert fault.kind in TRIPS, (fault.say, words)
            assert circuit.has_rcd


@pytest.mark.parametrize("shape", [*SINGLE_PHASE, "three-phase"])
def test_metal_that_is_live_is_told_as_a_danger(shape):
    for _, fault, words in told(shape):
        assert words.startswith("DANGER") is (fault.kind == "line-earth-reversed")
