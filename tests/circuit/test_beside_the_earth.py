"""What lies beside the earthing conductor is in every loop that is read with it on: Ze, Ipf and Zs, by one network."""

from dataclasses import replace

import pytest

from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.measuring import shown_of
from quizzer.circuit.commissioning.state import State
from quizzer.circuit.installation.checks import origin_values, single_tests, values_of
from quizzer.circuit.installation.drawing import SIZES
from quizzer.circuit.model.network import Branch
from quizzer.circuit.model.supply import Supply
from quizzer.circuit.testing.at_origin import source
from quizzer.circuit.testing.schedule import in_state
from quizzer.workflows.faults.commissioning import commissioned
from tests.circuit.test_every_pair import ohms_between
from tests.circuit.test_published import by_a_general_solver


def installation(size, supply=None):
    """A sound installation, on this supply or on its own."""
    whole = commissioned(size, 2, 3, periodic=False).sound
    return whole.with_supply(supply) if supply else whole


def zs(whole, way):
    return values_of(way, "zs", single_tests(way, "zs", 500, whole.parallel))


@pytest.mark.parametrize("supply", [Supply("TN-S", 0.62, 0.28), Supply("TT", 86.0, 0.24), Supply("TN-C-S", 0.3, 0.3)])
def test_the_external_loop_with_the_earth_on_agrees_with_a_general_solver(supply):
    whole = installation("house", supply)
    network = [*source(supply), Branch("E0", "source", whole.parallel)]
    expect = by_a_general_solver(network, "L0", "E0")
    found = origin_values(whole, earth_off=False)
    assert found["Ze"] == pytest.approx(expect, rel=1e-6)
    assert found["Ipf"] == pytest.approx(230 / min(expect, supply.z_n), rel=1e-6)
    assert origin_values(whole, earth_off=True)["Ze"] == pytest.approx(supply.z_e)


@pytest.mark.parametrize("size", SIZES)
def test_the_loop_of_every_point_agrees_with_a_solver_of_another_library(size):
    """The network is put together here anew: wires, supply, and the pipes beside its earth."""
    whole = installation(size)
    for way in whole.ways:
        motor = way.serves == "motor"
        tests = single_tests(way, "zs", 500, whole.parallel)
        for test, value in zip(tests, values_of(way, "zs", tests), strict=True):
            plain = single_tests(way, "zs", 500)[tests.index(test)]
            branches, _ = in_state(way.circuit, plain.setting._replace(joins=()))
            if motor:  # of the two tails of 0.03 ohms one is a wire of the line, one of the earth
                half = whole.supply.z_n / 2 - 0.03
                before = [("source-L1", half), ("star", whole.supply.z_e - 0.06 - half), ("E", whole.parallel)]
                more = [Branch(node, "back", ohms) for node, ohms in before]
            else:
                legs = [Branch(f"{core}0", f"{core}x", 0.0) for core in "LNE"] if way.serves == "ring" else []
                more = [*legs, *source(whole.supply), Branch("E0", "source", whole.parallel)]
            assert value == pytest.approx(ohms_between([*branches, *more], *test.probes), rel=1e-5), (way.name, test.id)


def test_in_tt_pipes_carry_most_of_a_loop_and_the_loop_is_the_one_at_the_origin_and_the_circuit():
    """By hand: 0.12 ohms of line, then 85.88 beside 9 ohms, and R1+R2: 0.12 + 8.146."""
    whole = installation("house", Supply("TT", 86.0, 0.24))
    assert origin_values(whole, earth_off=False)["Ze"] == pytest.approx(8.266, abs=0.001)
    radials = [way for way in whole.ways if way.serves != "ring"]  # a ring's ends are crossed for R1+R2 alone
    assert len(radials) > 4
    for way in radials:
        r1r2 = values_of(way, "r1r2", single_tests(way, "r1r2", 500))
        assert max(zs(whole, way)) == pytest.approx(8.266 + max(r1r2), abs=0.02)


def test_what_is_shown_of_a_way_has_the_pipes_in_it():
    play = commissioned("flat", 2, 3, periodic=False)
    whole = replace(play.sound.with_supply(Supply("TT", 86.0, 0.24)), parallel=9.0)
    alone = replace(play, sound=whole, departures=(), damage=None)
    assert isinstance(alone, Commission)
    found = shown_of(alone, State(trips=True), whole, 1, "zs").values["Zs"]
    assert found == pytest.approx(8.27 + 0.6, rel=0.08)
