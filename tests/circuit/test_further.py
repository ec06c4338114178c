"""Tests beyond the schedule: done only after a failure, open in a sound circuit, and they part what was left alike."""

from math import inf
from random import Random

import pytest

from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import followed, further
from quizzer.circuit.testing.reading import first_difference, unlike
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.question.rig.scene import Scene, taken


def a_scene(shape, seed):
    """A scene with every fault suspected."""
    circuit = drawn(shape, 2, 4, Random(seed).random)
    tests, everything = schedule(circuit), suspects(circuit)
    return Scene(circuit, tests, further(circuit), tuple(readings(circuit, tests)), everything, everything)


@pytest.mark.parametrize("shape", ["radial", "cooker", "lighting", "two-way", "intermediate", "three-phase"])
def test_no_two_kinds_of_fault_read_alike_once_they_are_done(shape):
    for seed, every in ((0, 1), (1, 4), (2, 4)):  # each fault of one circuit, and some of two more
        scene = a_scene(shape, seed)
        for fault in scene.suspects[::every]:
            tests, values = taken(scene, fault)
            alike = [other for other in scene.suspects if unlike(scene.circuit, tests, values, other) is None]
            assert {other.family for other in alike} == {fault.family}, fault.say


@pytest.mark.parametrize(
    ("shape", "one", "other", "test"),
    [
        ("lighting", "borrowed-neutral", "open-neutral", "neutral of the next lighting circuit"),
        ("two-way", "strappers-transposed", "open-line", "end to end"),
        ("radial", "line-neutral-reversed", "open-earth", "polarity"),
        ("radial", "line-earth-reversed", "open-neutral", "polarity"),
        ("radial", "neutral-earth-reversed", "open-line", "polarity"),
    ],
)
def test_a_further_test_parts_what_the_schedule_leaves_alike(shape, one, other, test):
    circuit = drawn(shape, 3, 3, Random(2).random)
    dead = [each for each in schedule(circuit) if not each.instrument.live]
    more = [each for each in further(circuit) if each.group.startswith(test)]
    firsts = [fault for fault in suspects(circuit) if fault.kind == one]
    others = [fault for fault in suspects(circuit) if fault.kind == other]
    pairs = [(with_fault(circuit, a), with_fault(circuit, b)) for a in firsts for b in others]
    alike = [(a, b) for a, b in pairs if first_difference(dead, readings(a, dead), readings(b, dead)) is None]
    assert alike
    assert all(first_difference(more, readings(a, more), readings(b, more)) is not None for a, b in alike)


@pytest.mark.parametrize("shape", SHAPES)
def test_in_a_sound_circuit_polarity_and_other_neutrals_read_open_and_nothing_is_followed_up(shape):
    circuit = drawn(shape, 3, 5, Random(4).random)
    tests = schedule(circuit)
    sound = readings(circuit, tests)
    opens = [test for test in further(circuit) if test.group.startswith(("polarity", "neutral of the next"))]
    assert readings(circuit, opens) == [inf] * len(opens)
    assert followed(circuit, tests, sound, sound) == ()
