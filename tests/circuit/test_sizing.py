"""Faults over all their sizes: the closed form against whole solutions, and against every size of a fine grid."""

from math import inf
from random import Random

import numpy as np
import pytest

from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.edits import AddedOhms
from quizzer.circuit.model.fault import Fault, Span, with_fault
from quizzer.circuit.model.faults.breaks import OPEN_LINE
from quizzer.circuit.model.suspects import KINDS, suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.instruments import INSTRUMENTS, band, differ
from quizzer.circuit.testing.reading import _cheap, _without, case_of, told_apart, unlike
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.circuit.testing.sizing import _narrowed, _reader, by_state, unlike_at_any_size

GRID = 100
SIZES = {kind: row.sizes for kind, row in KINDS.items() if row.sizes}


def a_circuit(shape, seed=3, most=4):
    """A sound circuit."""
    return drawn(shape, 2, most, Random(seed).random)


def sized(circuit):
    """The suspects that can be of many sizes."""
    return [fault for fault in suspects(circuit) if fault.kind in SIZES]


def grid(kind, count=GRID):
    """Sizes from the smallest to the largest, in even ratios."""
    return [float(size) for size in np.geomspace(*SIZES[kind], count)]


def fits(circuit, groups, values, fault):
    """Whether the fault, at its own size, reads like these values; state by state, and no further than needed."""
    faulty = with_fault(circuit, fault)
    return not any(
        told_apart(test, values[test.id], value)
        for group in groups
        for test, value in zip(group, readings(faulty, group), strict=True)
    )


def grouped(tests):
    """The tests state by state."""
    return [[tests[at] for at in together] for together in by_state(tests)]


def test_the_drawn_size_of_a_fault_is_one_that_it_can_be_of():
    assert len(SIZES) >= 10
    for shape in SHAPES:
        for seed in range(20):
            for fault in sized(a_circuit(shape, seed, 12)):
                low, high = SIZES[fault.kind]
                assert low <= fault.size <= high


@pytest.mark.parametrize("shape", SHAPES)
def test_the_closed_form_is_what_the_whole_network_gives(shape):
    circuit = a_circuit(shape, most=9)
    for fault in sized(circuit)[:: 5 if shape == "ring" else 2]:
        span = SIZES[fault.kind]
        ends = tuple(with_fault(circuit, fault._replace(size=size)) for size in span)
        for group in grouped((*schedule(circuit), *further(circuit))):
            read = _reader(circuit, ends, span, group, fault)
            for size in grid(fault.kind, 3):
                whole = readings(with_fault(circuit, fault._replace(size=size)), group)
                assert list(read(np.full(len(group), size))) == pytest.approx(whole, rel=1e-7, abs=1e-9)


@pytest.mark.parametrize("shape", SHAPES)
def test_no_size_of_a_fine_grid_was_missed(shape):
    """Every reading of every rival at every size of the grid: where one fits, the rival was not ruled out."""
    circuit = a_circuit(shape)
    tests = (*schedule(circuit), *further(circuit))
    groups, dice = grouped(tests), Random(shape)
    targets = dice.sample(suspects(circuit), 3)
    targets += [
        fault._replace(size=dice.choice(grid(fault.kind)))
        for fault in dice.sample(sized(circuit), min(2, len(sized(circuit))))
    ]
    for target in targets:
        values = case_of(circuit, target, tests).values
        named = dict(zip((test.id for test in tests), values, strict=True))
        for rival in sized(circuit):
            if unlike(circuit, tests, values, rival) is not None:
                every = (rival._replace(size=size) for size in grid(rival.kind))
                assert not any(fits(circuit, groups, named, each) for each in every), (target, rival)


def test_a_rival_of_another_size_than_the_drawn_one_is_found():
    circuit = a_circuit("radial")
    tests = schedule(circuit)  # at 500 V only
    damp, electronics = (
        next(fault for fault in sized(circuit) if fault.kind == kind)
        for kind in ("low-line-neutral", "electronics-left-in")
    )
    small = damp._replace(size=0.12e6)
    values = case_of(circuit, small, tests).values
    named = dict(zip((test.id for test in tests), values, strict=True))
    assert not fits(circuit, grouped(tests), named, electronics)
    assert unlike(circuit, tests, values, electronics) is None
    more = (*tests, *further(circuit))
    told = unlike(circuit, more, case_of(circuit, small, more).values, electronics)
    assert told is not None
    assert more[told[0]].group == "insulation at 250 V"


def test_what_is_told_of_a_rival_is_the_nearest_it_can_read():
    circuit = a_circuit("radial")
    tests = schedule(circuit)
    fault = next(fault for fault in sized(circuit) if fault.kind == "loose-joint")
    sound = case_of(circuit, None, tests).values
    at, value, size = unlike_at_any_size(circuit, tests, sound, fault, fault.row.sizes)
    assert size == SIZES["loose-joint"].low
    smallest = readings(with_fault(circuit, fault._replace(size=SIZES["loose-joint"].low)), [tests[at]])
    assert value == pytest.approx(smallest[0])


def test_two_tests_that_want_different_sizes_rule_a_fault_out():
    found = _narrowed(lambda sizes: np.array([sizes[0], 2 * sizes[1]]), Span(0, 10), [(2, 3), (8, 9)])
    assert not isinstance(found, Span)
    found = _narrowed(lambda sizes: np.array([sizes[0], 2 * sizes[1]]), Span(0, 10), [(2, 5), (8, 9)])
    assert found == pytest.approx((4, 4.5))


@pytest.mark.parametrize("name", ["continuity", "insulation", "loop", "prospective", "rcd", "leakage", "voltage"])
def test_a_band_holds_all_that_an_instrument_cannot_tell(name):
    tester, dice = INSTRUMENTS[name], Random(name)
    for _ in range(300):
        value = 10 ** dice.uniform(-2, 4.5) / tester.scale
        low, high = band(tester, value)
        for _ in range(20):
            other = value * 10 ** dice.uniform(-0.1, 0.1)
            assert differ(tester, value, other) or low <= other <= high
        assert not differ(tester, value, value)
        assert low <= 0 or value * tester.scale > tester.end or differ(tester, value, low * 0.999)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_broken_wire_read_from_the_sound_solution_is_what_the_broken_network_gives(shape):
    for seed in range(3):
        circuit = a_circuit(shape, seed, 9)
        tests = (*schedule(circuit), *further(circuit))
        for wire in circuit.wires:
            broken = with_fault(circuit, Fault(OPEN_LINE, AddedOhms(wire.id), inf, ""))
            for group in grouped(tests):
                if _cheap(group):
                    # kiloohms of coils beside milliohms of wire leave six figures; no instrument shows more than four
                    assert _without(circuit, wire, group) == pytest.approx(readings(broken, group), rel=1e-5, abs=1e-7)
