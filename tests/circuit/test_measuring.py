"""Measured readings: within accuracy, the same for the same dice, one share an instrument, clear of every limit."""

from random import Random

import pytest

from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.instruments import INSTRUMENTS, doubt, shown, step_of
from quizzer.circuit.testing.measuring import measured, measured_in_parts
from quizzer.circuit.testing.on_site import further_on_site, on_site
from quizzer.circuit.testing.reading import first_difference, told_apart
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.question.rig.believed_limits import rules_of
from quizzer.question.rig.scene import Scene, taken


def a_sheet(shape, seed):
    """A circuit, its tests and its true readings with a fault drawn."""
    dice = Random(seed)
    circuit = drawn(shape, 3, 8, dice.random)
    tests = (*schedule(circuit), *further(circuit))
    return tests, readings(with_fault(circuit, dice.choice(suspects(circuit))), tests), dice.random


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("shape", SHAPES)
def test_no_measured_reading_can_be_told_from_the_true_one(shape, seed):
    tests, values, dice = a_sheet(shape, seed)
    found = measured(tests, values, dice)
    assert first_difference(tests, values, found) is None
    assert first_difference(tests, found, values) is None


def test_no_loop_is_shown_as_lower_than_the_loop_before_it():
    for seed in range(40):
        circuit = drawn("cooker", 2, 2, Random(seed).random)
        tests = [test for test in schedule(circuit) if test.uses == "loop"]
        (found,) = measured(tests, readings(circuit, tests), Random(seed).random)
        assert found >= circuit.supply.z_e


def test_the_same_dice_give_the_same_readings_and_others_give_others():
    tests, values, _ = a_sheet("ring", 1)
    first, again, other = (measured(tests, values, Random(seed).random) for seed in (1, 1, 2))
    assert first == again != other


def test_the_loop_of_an_electrode_stays_by_what_was_read_at_the_origin():
    """One loop tester reads both: the loop is over Z_e by R1+R2, its share of that, and half a digit each."""
    for seed in range(40):
        circuit = drawn("radial", 3, 4, Random(seed).random)
        parts = schedule(circuit), further_on_site(circuit)
        tests = (*parts[0], *parts[1])
        true = readings(circuit, tests)
        read = measured_in_parts(parts, true, Random(seed).random)
        loop, origin = (next(n for n, test in enumerate(tests) if test.id == name) for name in ("loop", "origin-ze"))
        step = step_of(tests[loop].instrument, read[loop])
        r1r2 = true[loop] - true[origin]
        assert read[loop] - read[origin] == pytest.approx(r1r2, abs=0.05 * r1r2 + step)


def test_the_loops_of_three_lines_stay_by_each_other():
    """The three loops at the motor are alike but for the digits: one tester reads them all."""
    for seed in range(8):
        circuit = drawn("three-phase", 3, 4, Random(seed).random)
        parts = (*schedule(circuit), *on_site(circuit)), further_on_site(circuit)
        tests = (*parts[0], *parts[1])
        read = measured_in_parts(parts, readings(circuit, tests), Random(seed).random)
        found = [value for test, value in zip(tests, read, strict=True) if test.id in {"loop", "loop-V", "loop-W"}]
        assert len(found) == 3
        assert max(found) - min(found) <= step_of(INSTRUMENTS["loop"], max(found)) + 1e-9


def test_one_instrument_is_out_by_one_share_of_all_it_reads():
    tests, values, dice = a_sheet("radial", 2)
    found = measured(tests, values, dice)
    many = [n for n, test in enumerate(tests) if test.uses == "continuity" and values[n] < 1e9]
    shares = [(found[n] - values[n], values[n], step_of(tests[n].instrument, values[n])) for n in many]
    low = max((out - step / 2) / value for out, value, step in shares)
    high = min((out + step / 2) / value for out, value, step in shares)
    assert low <= high + 1e-12
    assert len(many) > 5


@pytest.mark.parametrize("shape", SHAPES)
def test_what_is_over_range_stays_so_and_what_is_no_number_is_not_out(shape):
    for seed in range(4):
        tests, values, dice = a_sheet(shape, seed)
        for test, value, found in zip(tests, values, measured(tests, values, dice), strict=True):
            if test.instrument.codes or test.uses == "eye":
                assert found == value
            over = test.instrument.over and shown(test.instrument, value) == test.instrument.over
            assert not over or shown(test.instrument, found) == test.instrument.over


@pytest.mark.parametrize("shape", SHAPES)
def test_no_reading_of_a_sheet_lies_within_accuracy_of_its_limit(shape):
    for seed in range(3):
        dice = Random(seed).random
        circuit = drawn(shape, 3, 8, dice)
        tests, everything = schedule(circuit), suspects(circuit)
        scene = Scene(circuit, tests, further(circuit), tuple(readings(circuit, tests)), everything, everything)
        for fault in everything:
            done, values = taken(scene, fault)
            for test, value in zip(done, measured(done, values, dice), strict=True):
                assert not _near_a_limit(circuit, test, value), (fault.say, test.say, value)


def _near_a_limit(circuit, test, value):
    if test.uses not in {"insulation", "loop", "rcd", "leakage"}:
        return False
    bound, scaled = rules_of(circuit, test.uses).limit.value(circuit), value * test.instrument.scale
    return abs(scaled - bound) <= doubt(test.instrument, max(bound, min(scaled, bound)))


def test_a_reading_near_a_limit_is_seen_as_such():
    circuit = drawn("radial", 3, 3, Random(1).random)
    test = next(test for test in schedule(circuit) if test.uses == "insulation")
    assert _near_a_limit(circuit, test, 1.03e6)
    assert not _near_a_limit(circuit, test, 0.9e6)
    assert not told_apart(test, 1.03e6, 1e6)
