"""The model: every fault can be detected, and what is played is safe; its laws stand in tests/properties."""

from random import Random

import pytest

from quizzer.circuit.diagram import plain
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.suspects import KINDS, suspects
from quizzer.circuit.testing.instruments import INSTRUMENTS, differ, shown
from quizzer.circuit.testing.reading import case_of, first_difference, grouped, unlike
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.circuit.testing.worth import left_on_average


def circuit_of(shape, seed=5, most=6):
    """A sound circuit of the shape."""
    return drawn(shape, 1, most, Random(seed).random)


def test_there_are_ten_shapes_and_more_than_twenty_faults():
    assert len(SHAPES) == 10
    drawn_ones = [circuit_of(shape, seed, most=12) for shape in SHAPES for seed in range(4)]
    kinds = {fault.kind for circuit in drawn_ones for fault in suspects(circuit)}
    assert kinds | {"spur-off-spur"} == set(KINDS)
    assert len(kinds) >= 20


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("shape", SHAPES)
def test_every_fault_is_detected_by_a_test_of_the_schedule(shape, seed):
    circuit = circuit_of(shape, seed)
    tests = schedule(circuit)
    sound = readings(circuit, tests)
    missed = [
        fault.say
        for fault in suspects(circuit)
        if first_difference(tests, sound, case_of(circuit, fault, tests).values) is None
    ]
    # A bridge of a few metres between near sockets lies beside as many metres of ring: it changes every reading by less
    # than the instruments may be out, and only looking finds it.
    assert [say for say in missed if "bridged" not in say] == []


def test_unlike_is_the_same_as_comparing_every_reading():
    circuit = circuit_of("ring", most=9)
    tests = schedule(circuit)
    cases = [case_of(circuit, fault, tests) for fault in suspects(circuit)]
    target = cases[3]
    for case in cases:
        alike = first_difference(tests, target.values, case.values) is None
        assert (unlike(circuit, tests, target.values, case.fault) is None) is alike


def test_the_worth_of_a_test():
    test = schedule(circuit_of("radial"))[1]
    assert left_on_average(test, [[0.1], [0.1], [5.0], [9.0]]) == pytest.approx((2 * 2 + 1 + 1) / 4)
    assert left_on_average(test, [[0.1], [0.1], [0.1]]) == 3


def test_a_reading_leaves_a_suspect_when_one_of_its_sizes_fits():
    """Two joints of unknown sizes are one and the same to a meter, however well it tells the sizes apart."""
    test = schedule(circuit_of("radial"))[1]
    joint = (0.4, 1.5, 5.0)
    assert left_on_average(test, [joint]) == 1
    assert left_on_average(test, [joint, joint]) == 2
    # The open one is told; a third of the joint's sizes reads like the fixed one, which the joint always explains.
    assert left_on_average(test, [joint, (1.5,), (1e9,)]) == pytest.approx(((1 + 2 + 1) / 3 + 2 + 1) / 3)


def test_displays():
    assert shown(INSTRUMENTS["continuity"], 0.305) == "0.31 Ω"
    assert shown(INSTRUMENTS["insulation"], 1e12) == "over 999 MΩ"
    assert not differ(INSTRUMENTS["continuity"], 0.30, 0.31)
    assert differ(INSTRUMENTS["continuity"], 0.30, 0.40)
    assert not differ(INSTRUMENTS["insulation"], 2e9, 5e9)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_circuit_is_drawn_in_lines_and_its_readings_grouped(shape):
    circuit = circuit_of(shape)
    assert plain(circuit)
    assert grouped(circuit, schedule(circuit), readings(circuit, schedule(circuit)))
