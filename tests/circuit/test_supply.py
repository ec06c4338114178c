"""The supply: ranges of each arrangement, loops and limits that follow, and what the loop cannot tell in TT."""

from random import Random

import pytest

from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.supply import ARRANGEMENTS, supply_of
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.instruments import INSTRUMENTS, doubt, shown
from quizzer.circuit.testing.schedule import readings, schedule

RANGES = {each.name: (each.low, each.high) for each in ARRANGEMENTS}
SEEDS = range(60)


def circuits_on(earthing, shape="ring", wanted=8):
    """Sound circuits on such a supply."""
    drawn_ones = (drawn(shape, 3, 12, Random(seed).random) for seed in SEEDS)
    found = [circuit for circuit in drawn_ones if circuit.supply.earthing == earthing]
    assert len(found) >= wanted
    return found[:wanted]


def read(circuit, *ids):
    """What the tests of these ids read."""
    tests = [test for test in schedule(circuit) if test.id in ids]
    return readings(circuit, tests)


def test_every_arrangement_is_drawn_in_its_range():
    found = {}
    for n in range(2000):
        supply = supply_of((n + 0.5) / 2000)
        low, high = RANGES[supply.earthing]
        assert low <= supply.z_e <= high
        assert 0.14 <= supply.z_n <= 0.35
        assert supply.earthing != "TN-C-S" or supply.z_n == supply.z_e
        found.setdefault(supply.earthing, set()).add(supply.z_e)
    assert {name: (min(values), max(values)) for name, values in found.items()} == RANGES


def test_a_supply_is_said_with_the_places_of_its_size():
    assert {str(supply_of(n / 7)) for n in range(7)} >= {"TN-C-S, Z_e 0.14 Ω", "TT, Z_e 97 Ω"}


@pytest.mark.parametrize("earthing", RANGES)
def test_prospective_current_follows_each_loop(earthing):
    for circuit in circuits_on(earthing):
        to_neutral, to_earth = read(circuit, "current-N", "current-E")
        assert to_neutral == pytest.approx(230 / circuit.supply.z_n)
        assert to_earth == pytest.approx(230 / circuit.supply.z_e)
        assert to_earth <= to_neutral
        if earthing == "TT":
            assert to_earth < 12
            assert to_neutral > 600


@pytest.mark.parametrize("shape", ["ring", "radial", "cooker"])
@pytest.mark.parametrize("earthing", RANGES)
def test_a_sound_loop_stays_clear_of_its_limit(earthing, shape):
    for circuit in circuits_on(earthing, shape):
        (loop,) = read(circuit, "loop")
        assert loop >= circuit.supply.z_e
        assert loop + doubt(INSTRUMENTS["loop"], loop) < circuit.cold_limit


def test_the_limit_is_the_device_in_tn_and_the_touch_voltage_in_tt():
    (tn, tt) = (circuits_on(earthing)[0] for earthing in ("TN-S", "TT"))
    assert (tn.loop_limit, tn.cold_limit) == (tn.device.limit, 0.8 * tn.device.table_limit)
    assert tt.loop_limit == tt.cold_limit == pytest.approx(50 / 0.03)


@pytest.mark.parametrize("shape", sorted(set(SHAPES) - set(STARTERS)))
def test_a_wrong_device_is_no_suspect_in_tt(shape):
    for earthing in RANGES:
        kinds = {fault.kind for fault in suspects(circuits_on(earthing, shape, 1)[0])}
        assert ("wrong-device" in kinds) is (earthing != "TT")


def test_a_current_to_earth_in_tt_is_a_few_amperes_on_the_display():
    assert shown(INSTRUMENTS["prospective"], 230 / 100) == "2.3 A"
    assert shown(INSTRUMENTS["prospective"], 1150.4) == "1150 A"
    assert shown(INSTRUMENTS["prospective"], 25e3) == "over 20 kA"
