"""RCDs and leakage on site: what each test reads, by hand and against the bands of the product standard."""

from dataclasses import replace
from math import hypot, inf, sqrt
from random import Random

import pytest

from quizzer.circuit.game.actions import act, name
from quizzer.circuit.game.exercise import exercise, left_of
from quizzer.circuit.game.replay import ending
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.faults import residual
from quizzer.circuit.model.suspects import suspects_on_site
from quizzer.circuit.testing.further import barred, further
from quizzer.circuit.testing.limits import LIMITS
from quizzer.circuit.testing.on_site import further_on_site, on_site
from quizzer.circuit.testing.schedule import readings, schedule
from tests.circuit.players import walked

# IEC 61008-1:2010, Table 1, from memory: ms at the rated residual current and at five times it, general and type S.
GENERAL, DELAYED = ((0, 300), (0, 40)), ((130, 500), (50, 150))


def drawn_with(shape, seed, earthing=None):
    """A circuit of the shape that has an RCD, from a seed on; with an earthing arrangement if one is named."""
    circuits = (drawn(shape, 3, 5, Random(at).random) for at in range(seed, seed + 60))
    return next(c for c in circuits if c.has_rcd and earthing in {None, c.supply.earthing})


def read(circuit, fault=None):
    """What each live test on site reads, by its id."""
    tests = further_on_site(circuit)
    values = readings(with_fault(circuit, fault) if fault else circuit, tests)
    return dict(zip((test.id for test in tests), values, strict=True))


def one(circuit, kind, at=0):
    """A fault of the kind on the circuit."""
    return [fault for fault in residual.places(circuit) if fault.kind == kind][at]


@pytest.mark.parametrize("seed", range(8))
def test_sound_rcds_lie_within_the_bands_of_the_product_standard(seed):
    circuit = drawn_with("radial", 7 * seed, "TT")
    found = read(circuit)
    for one_time, (low, high) in zip((circuit.rcd_ms, found["five"]), GENERAL, strict=True):
        assert low < one_time <= high
    for one_time, (low, high) in zip((found["main-rated"], found["main-five"]), DELAYED, strict=True):
        assert low <= one_time <= high
    assert found["half"] == found["main-half"] == inf
    assert 15 < found["ramp"] < found["ramp-bare"] <= 30
    assert found["button"] == 1
    assert found["leakage-all"] < LIMITS["leakage"].value(circuit)


def test_faults_of_rcds_break_their_bands_at_every_size():
    circuit = drawn_with("radial", 0, "TT")
    for kind, test, (low, high) in (
        ("main-rcd-fast", "main-rated", DELAYED[0]),
        ("main-rcd-late", "main-rated", DELAYED[0]),
        ("main-rcd-fast", "main-five", DELAYED[1]),
        ("main-rcd-late", "main-five", DELAYED[1]),
    ):
        fault = one(circuit, kind)
        for size in fault.row.sizes or (fault.size,):
            assert not low <= read(circuit, fault._replace(size=size))[test] <= high, (kind, test, size)


def test_a_trip_at_half_is_told_from_leakage_by_the_ramp_with_and_without_loads():
    """Row 28 of a table of defects, worked by hand: trip at 25 mA, 12 mA in phase leave 13; without loads 25."""
    circuit = replace(drawn_with("radial", 0), rcd_ma=25.0, leakage_ma=0.0, beside_ma=(0.0, 0.0, 0.0))
    leaking = read(circuit, one(circuit, "load-leaks")._replace(size=12.0))
    assert [leaking["ramp"], leaking["ramp-bare"]] == pytest.approx([13.0, 25.0])
    assert leaking["half"] < 300  # 15 + 12 is more than 25
    sensitive = read(circuit, one(circuit, "rcd-sensitive")._replace(size=13.0))
    assert [sensitive["ramp"], sensitive["ramp-bare"]] == pytest.approx([13.0, 13.0])
    assert sensitive["half"] < 300
    assert read(circuit)["half"] == inf


def test_filters_add_across_circuits_and_at_a_right_angle_to_the_testers_current():
    """Twelve filters of 0.75 mA are 9 mA, the most that 30 per cent of 30 mA allows: worked by hand."""
    circuit = replace(drawn_with("radial", 0), rcd_ma=24.0, leakage_ma=6 * 0.75, beside_ma=(6 * 0.75, 0.0, 0.0))
    found = read(circuit)
    assert found["leakage-all"] == pytest.approx(9.0)
    assert found["ramp"] == pytest.approx(sqrt(24.0**2 - 9.0**2))
    assert hypot(15.0, 9.0) < 24.0
    assert found["half"] == inf


def test_an_appliance_is_found_by_unplugging_and_circuits_by_the_clamp_on_each():
    circuit = drawn_with("ring", 0)
    found = read(circuit, one(circuit, "load-leaks", 1))
    assert [k for k in range(1, len(circuit.points) + 1) if found[f"unplug-{k}"] < 4] == [2]
    fault = one(circuit, "leakages-add", -1)
    found = read(circuit, fault)
    assert fault.say.startswith("what the boiler and the loft leak")
    assert [n for n in (1, 2, 3) if found[f"beside-{n}"] > 4] == [2, 3]
    assert all(found[f"beside-{n}"] < 9 < found["leakage-all"] for n in (1, 2, 3))


@pytest.mark.parametrize(("at", "own", "together"), [(0, 6.0, 6.0), (-1, 1.2, 2.2)])
def test_circuits_that_are_parted_leak_as_they_did(at, own, together):
    """Worked by hand: 6 mA each; parted, this circuit has 6 alone, or 1.2 with the 1.0 of the one left beside it."""
    circuit = replace(drawn_with("ring", 0), leakage_ma=1.2, beside_ma=(1.0, 1.3, 1.1))
    fault = one(circuit, "leakages-add", at)._replace(size=6.0)
    play = play_of(circuit, fault)
    mended = dict(zip((test.id for test in play.tests), play.mended, strict=True))
    assert mended["leakage"] == pytest.approx(own)
    assert mended["leakage-all"] == pytest.approx(together)
    assert mended["beside-3"] == pytest.approx(1.1 if at == 0 else 6.0)


def test_it_holds_at_every_size_while_it_is_only_used():
    """A customer who says that it trips at times has a circuit that can be switched on."""
    for shape in SHAPES:
        for seed in range(4):
            circuit = drawn(shape, 3, 5, Random(seed).random)
            for fault in residual.places(circuit):
                for size in fault.row.sizes or (fault.size,):
                    faulty = with_fault(circuit, fault._replace(size=size))
                    assert read(faulty).get("leakage-all", 0.0) < faulty.rcd_ma, (fault.say, size)


def play_of(circuit, fault):
    """The fault to be found among all others on site."""
    tests = (*schedule(circuit), *further(circuit), *on_site(circuit), *barred(circuit))
    return exercise(circuit, fault, suspects_on_site(circuit), tests, Random(3).random, further_on_site(circuit))


@pytest.mark.parametrize("shape", ["radial", "cooker", "two-way"])
def test_each_is_told_from_every_other_suspect_at_every_size(shape):
    circuit = drawn_with(shape, 0, "TT")
    for fault in residual.places(circuit):
        play = play_of(circuit, fault)
        left = left_of(play, {n: play.true[n] for n in play.allowed})
        assert [suspect.fault for suspect in left] == [fault]


def test_an_appliance_is_unplugged_while_the_circuit_is_on_and_no_certificate_belongs_to_it():
    circuit = drawn_with("radial", 0, "TN-S")
    play = play_of(circuit, one(circuit, "load-leaks"))
    proving = ("isolate all", "lock", "prove indicator", "prove dead", "prove indicator", "disconnect")
    first, last = ([n for duty in duties for n in duty.tests] for duties in (play.first_duties, play.last_duties))
    live = [n for n in play.allowed if play.tests[n].instrument.live]
    state = walked(play, [*proving, *first, "energise", *live])
    state = act(play, name(state, play.fault)[0], "repair")[0]
    assert "standing leakage" in {duty.say for duty in play.last_duties if not state.passed.issuperset(duty.tests)}
    early = act(play, state, "certify")[0]
    assert ending(play, early).verdict == "left out"
    from quizzer.circuit.game.taking import take

    for n in last:
        state = take(play, state, n)[0]
    state = act(play, state, "certify")[0]
    assert ending(play, state).verdict == "right"
