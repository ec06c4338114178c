"""Neutrals of two circuits that touch, with their live hazard; and spurs that read alike until one is disconnected."""

from random import Random

import pytest

from quizzer.circuit.game.actions import act
from quizzer.circuit.game.exercise import Beside, State, left_of
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.suspects import suspects_on_site
from quizzer.circuit.testing.reading import told_apart
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.workflows.faults.diagnosing import every_test, made

DEAD = ("lock", "prove indicator", "prove dead", "prove indicator", "disconnect")


def with_kind(shape, kind, points=4):
    """A circuit of the shape with its first fault of the kind."""
    circuit = drawn(shape, points, points, Random(3).random)
    return circuit, next(fault for fault in suspects_on_site(circuit) if fault.kind == kind)


def on(play, *actions):
    """The state after actions from the beginning, and what was said last."""
    state, said = State(), ""
    for each in actions:
        state, said = act(play, state, each)
    return state, said


@pytest.mark.parametrize("shape", ["lighting", "two-way", "intermediate"])
def test_a_neutral_that_another_circuit_uses_is_live_when_it_leaves_its_bar(shape):
    play = made(*with_kind(shape, "neutrals-joined"), Beside(), Random(1).random)
    state, said = on(play, "isolate", "lock", "prove indicator", "prove dead")
    assert "borrows shows nothing while it is on its bar" in said
    parted, said = on(play, "isolate", *DEAD)
    assert "230 V to earth" in said
    assert not parted.proved
    assert act(play, parted, "disconnect")[0].stopped
    assert on(play, "isolate all", *DEAD)[0].loads_out
    left = left_of(play, {n: play.true[n] for n in play.allowed})
    assert [suspect.fault for suspect in left] == [play.fault]
    assert not state.stopped


def test_a_spur_of_a_spur_is_told_from_a_lengthened_one_by_disconnection_alone():
    """What a lengthened cable reads at its socket, a spur of a spur can read as well; disconnected, it reads open."""
    circuit, fed = with_kind("ring", "spur-off-spur", 9)
    _, long = with_kind("ring", "spur-lengthened", 9)
    tests = every_test(circuit)
    sheet = [test for test in schedule(circuit) if not test.id.startswith("LE")]
    own = readings(with_fault(circuit, fed), sheet)
    alike = [
        size / 1000
        for size in range(30, 200)
        if not any(
            told_apart(test, one, other)
            for test, one, other in zip(
                sheet, own, readings(with_fault(circuit, long._replace(size=size / 1000)), sheet), strict=True
            )
        )
    ]
    assert alike  # of line and neutral, some length reads the same at every socket
    beyond = [test for test in tests if test.id.startswith("beyond-")]
    assert readings(with_fault(circuit, fed), beyond) == [float("inf")] * 2
    assert max(readings(with_fault(circuit, long), beyond)) < 2
    assert max(readings(circuit, beyond)) < 2
