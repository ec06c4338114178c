"""Insulation at 250, 500 and 1000 V: damp stays low at each, electronics only above 250 V, 1000 V is refused."""

from random import Random

import pytest

from quizzer.circuit.game.actions import act
from quizzer.circuit.game.advice import best_way
from quizzer.circuit.game.exercise import State, exercise
from quizzer.circuit.game.taking import take
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.model.wiring import Clamp
from quizzer.circuit.testing.further import barred, followed, further
from quizzer.circuit.testing.instruments import insulation_at
from quizzer.circuit.testing.schedule import LEAST, readings, schedule

TOLD_BY_250 = ("electronics-left-in", "surge-left-in")
SINGLE_PHASE = [shape for shape in SHAPES if shape not in {"three-phase", *STARTERS}]


def a_circuit(shape, seed=5):
    """A sound circuit."""
    return drawn(shape, 3, 6, Random(seed).random)


def insulation(circuit, kind, tests):
    """What the insulation tests among these read with the first fault of the kind."""
    fault = next(fault for fault in suspects(circuit) if fault.kind == kind)
    return readings(with_fault(circuit, fault), [test for test in tests if test.setting.volts])


def test_a_clamp_conducts_above_its_volts_only():
    clamp = Clamp("L1", "N1", 0.4e6)
    assert [clamp.at(volts).ohms for volts in (0, 250, 500, 1000)] == [200e6, 200e6, 0.4e6, 0.4e6]


def test_electronics_of_some_circuits_read_low_at_250_volts_too_and_higher_than_at_500():
    """Those with a resistor that discharges them; damp reads alike at both, so the two readings still tell."""
    lowest = []
    for seed in range(12):
        circuit = a_circuit("radial", seed)
        at_500 = min(insulation(circuit, "electronics-left-in", schedule(circuit)))
        at_250 = min(insulation(circuit, "electronics-left-in", further(circuit)))
        lowest.append(at_250)
        assert at_250 > max(LEAST, 2 * at_500)
    assert min(lowest) < 3e6
    assert max(lowest) > 30e6


@pytest.mark.parametrize("shape", SINGLE_PHASE)
def test_damp_is_low_at_both_and_electronics_at_500_volts_only(shape):
    circuit = a_circuit(shape)
    for kind, low_at_250 in (("low-line-neutral", True), ("electronics-left-in", False)):
        assert min(insulation(circuit, kind, schedule(circuit))) < LEAST
        assert (min(insulation(circuit, kind, further(circuit))) < LEAST) is low_at_250


@pytest.mark.parametrize("shape", ["ring", "radial"])
def test_surge_protection_is_low_between_all_three_and_not_at_250_volts(shape):
    circuit = a_circuit(shape)
    assert max(insulation(circuit, "surge-left-in", schedule(circuit))) < LEAST
    assert min(insulation(circuit, "surge-left-in", further(circuit))) > 20 * LEAST


def test_what_failed_at_500_volts_is_repeated_at_250():
    circuit, tests = a_circuit("radial"), schedule(a_circuit("radial"))
    fault = next(fault for fault in suspects(circuit) if fault.kind == "low-line-neutral")
    sound = readings(circuit, tests)
    again = followed(circuit, tests, sound, readings(with_fault(circuit, fault), tests))
    assert [(test.group, test.place) for test in again] == [("insulation at 250 V", "line to neutral")]
    assert followed(circuit, tests, sound, sound) == ()


def test_the_schedule_is_done_at_500_volts():
    for shape in SHAPES:
        assert {test.setting.volts for test in schedule(a_circuit(shape))} == {0, 500}


def test_the_tester_says_the_volts_it_is_set_to():
    assert insulation_at(250).name == "insulation tester, 250 V"
    assert insulation_at(1000).does.startswith("puts 1000 V d.c.")
    assert {test.instrument.name for test in barred(a_circuit("ring"))} == {"insulation tester, 1000 V"}


def test_a_thousand_volts_are_refused_with_the_reason_and_count_for_nothing():
    circuit = a_circuit("radial")
    everything = suspects(circuit)
    tests = (*schedule(circuit), *further(circuit), *barred(circuit))
    play = exercise(circuit, everything[0], everything, tests)
    state = State()
    for action in ("isolate", "lock", "prove indicator", "prove dead", "prove indicator", "disconnect"):
        state, _ = act(play, state, action)
    after, said = take(play, state, len(tests) - 1)
    assert after == state
    assert "1000 V is for circuits above 500 V" in said
    assert not any(tests[n].never for n in (*best_way(play), *play.allowed))
