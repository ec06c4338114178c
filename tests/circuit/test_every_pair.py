"""A three-phase board on site: every pair, each line's loop, and currents, by published rows and another solver."""

import tomllib
from dataclasses import replace
from math import sqrt
from pathlib import Path
from random import Random

import numpy as np
import pytest
from scipy.sparse import coo_array
from scipy.sparse.linalg import spsolve

from quizzer.circuit.game.exercise import exercise, left_of
from quizzer.circuit.game.paper import results
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.edits import AddedOhms
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.faults import three_phase_site
from quizzer.circuit.model.phases import LINES
from quizzer.circuit.model.supply import Supply
from quizzer.circuit.model.suspects import suspects_on_site
from quizzer.circuit.testing.every_pair import TAILS, three_phase_current
from quizzer.circuit.testing.on_site import further_on_site, on_site
from quizzer.circuit.testing.schedule import in_state, readings, schedule
from tests.circuit.players import walked

ROWS = tomllib.loads((Path(__file__).parents[1] / "published" / "circuits.toml").read_text(encoding="utf-8"))


def board(seed=1):
    """A board that is drawn."""
    return drawn("three-phase", 2, 2, Random(seed).random)


def read(circuit):
    """What each further test on site reads, by its id."""
    tests = further_on_site(circuit)
    return dict(zip((test.id for test in tests), readings(circuit, tests), strict=True))


@pytest.mark.parametrize("row", ROWS["three_phase"])
def test_currents_are_those_of_the_rule_and_of_its_exceptions(row):
    """`line` and `neutral` are the ohms of one conductor each: the supply's loop has both, tails and all."""
    bare = replace(board(), supply=Supply("TN-S", 0.8, 2 * row["line"]), wires=_without_tails(board()))
    found = read(replace(bare, wires=_with_neutral(bare, row["neutral"] - row["line"])))
    assert found["pfc-L1-N"] == pytest.approx(row["to_neutral"], rel=1e-4)
    assert found["pfc-L1-L2"] == pytest.approx(row["two_lines"], rel=1e-4)
    amperes = {name: value for name, value in found.items() if name.startswith("pfc-")}
    assert 2 * found["pfc-L1-N"] == pytest.approx(row["doubled"], rel=1e-4)
    assert three_phase_current(amperes) == pytest.approx(max(row["doubled"], row["all_lines"]), rel=1e-4)
    assert row["two_lines"] == pytest.approx(sqrt(3) / 2 * row["all_lines"], rel=1e-4)


def _without_tails(circuit):
    """Tails as the model takes them off the loop of the supply."""
    return tuple(w._replace(ohms=TAILS / 2) if w.role == "supply" else w for w in circuit.wires)


def _with_neutral(circuit, more):
    """The neutral of the supply with other ohms; they may be fewer than the line's."""
    return tuple(w._replace(ohms=w.ohms + more) if w.id == "supply-N" else w for w in circuit.wires)


def test_the_highest_line_is_told_and_the_paper_says_what_three_lines_come_to():
    circuit = board(2)
    loose = with_fault(circuit, one(circuit, "L2"))
    found = read(loose)
    assert max(LINES, key=lambda line: found[f"loop-{line}"]) == "L2"
    play = play_of(circuit, one(circuit, "L2"))
    state = walked(play, ["isolate", "lock"])._replace(
        passed=frozenset(n for n, test in enumerate(play.tests) if test.id.startswith("pfc-"))
    )
    (line,) = results(play, state)
    sound = read(circuit)
    assert line.limit == f"all three lines {2 * sound['pfc-L1-N']:.0f} A"


def one(circuit, core):
    """The loose joint in a conductor at the main switch."""
    return next(f for f in three_phase_site.places(circuit) if f.at == AddedOhms(f"supply-{core}"))


def play_of(circuit, fault):
    """The fault to be found among all others on site."""
    tests = (*schedule(circuit), *on_site(circuit))
    return exercise(circuit, fault, suspects_on_site(circuit), tests, Random(3).random, further_on_site(circuit))


def ohms_between(branches, start, end):
    """The ohms between two nodes by a sparse solver of another library; solid joints are a ten-millionth of an ohm."""
    nodes = {node: n for n, node in enumerate(dict.fromkeys(node for b in branches for node in (b.start, b.end)))}
    rows, cols, values = [], [], []
    for branch in branches:
        if branch.ohms == float("inf"):
            continue
        i, j, s = nodes[branch.start], nodes[branch.end], 1 / max(branch.ohms, 1e-7)
        rows += [i, j, i, j]
        cols += [i, j, j, i]
        values += [s, s, -s, -s]
    size = len(nodes)
    leak = 1e-12  # holds what is joined to nothing
    rows += range(size)
    cols += range(size)
    values += [leak] * size
    drive = np.zeros(size)
    drive[nodes[start]], drive[nodes[end]] = 1.0, -1.0
    found = spsolve(coo_array((values, (rows, cols)), shape=(size, size)).tocsc(), drive)
    return found[nodes[start]] - found[nodes[end]]


@pytest.mark.parametrize("seed", range(3))
def test_loops_of_every_line_agree_with_a_solver_of_another_library(seed):
    circuit = board(seed)
    tests = [test for test in further_on_site(circuit) if test.uses == "loop"]
    assert len(tests) == 5
    for fault in (None, *three_phase_site.places(circuit)):
        faulty = with_fault(circuit, fault) if fault else circuit
        for test, value in zip(tests, readings(faulty, tests), strict=True):
            branches, _ = in_state(faulty, test.setting)
            assert value == pytest.approx(ohms_between(branches, *test.probes), rel=1e-5)


def test_insulation_of_every_pair_names_the_pair_that_failed():
    circuit = board(1)
    for fault in (*three_phase_site.placed(circuit), *three_phase_site.places(circuit)):
        if fault.kind == "loose-at-main-switch":
            continue
        found = read(with_fault(circuit, fault))
        low = [name for name, value in found.items() if name.startswith("ir-pair-") and value < 1e6]
        assert len(low) == 1, (fault.say, low)
        words = {"earth": "E", "neutral": "N", **dict(zip(LINES, LINES, strict=True))}
        said = [words[word] for word in fault.say.replace(",", "").split() if word in words]
        assert set(low[0].removeprefix("ir-pair-").split("-")) == set(said[:2])


def test_sound_insulation_of_every_pair_is_far_above_its_limit():
    found = read(board(4))
    values = [value for name, value in found.items() if name.startswith("ir-pair-")]
    assert len(values) == 10
    assert min(values) > 20e6


def test_each_is_told_from_every_other_suspect_at_every_size():
    circuit = board(1)
    for fault in (*three_phase_site.placed(circuit), *three_phase_site.places(circuit)):
        play = play_of(circuit, fault)
        left = left_of(play, {n: play.true[n] for n in play.allowed})
        assert [suspect.fault for suspect in left] == [fault]


def test_a_loose_neutral_moves_the_voltages_both_ways_and_no_line_current():
    circuit = board(1)
    found = read(with_fault(circuit, one(circuit, "N")))
    sound = read(circuit)
    assert found["pfc-L1-L2"] == sound["pfc-L1-L2"]
    assert found["pfc-L1-N"] < sound["pfc-L1-N"]
    voltages = [test for test in schedule(circuit) if test.id in {"L1-N", "L2-N", "L3-N"}]
    changes = np.subtract(readings(with_fault(circuit, one(circuit, "N")), voltages), readings(circuit, voltages))
    assert min(changes) < 0 < max(changes)


@pytest.mark.parametrize("seed", range(4))
def test_a_connected_motor_reads_all_that_leaks_to_earth_and_so_lower_than_one_line(seed):
    """By hand, of equal resistances R: five nodes read 2R/5 by pairs; three joined to earth R/3 beside R/3 + R."""
    circuit = board(seed)
    tests = schedule(circuit)
    connected = [v for t, v in zip(tests, readings(circuit, tests), strict=True) if t.id in {"ir-0", "ir-1", "ir-2"}]
    parallel = 1 / (3 / circuit.insulation + 1 / (circuit.insulation / 3 + circuit.insulation))
    assert connected == pytest.approx([parallel] * 3, rel=1e-6)
    for fault in (*three_phase_site.placed(circuit), *three_phase_site.places(circuit)):
        faulty = with_fault(circuit, fault)
        lines = [value for name, value in read(faulty).items() if name in {f"ir-pair-{line}-E" for line in LINES}]
        values = [v for t, v in zip(tests, readings(faulty, tests), strict=True) if t.id in {"ir-0", "ir-1", "ir-2"}]
        assert max(values) <= min(lines) * (1 + 1e-6), fault.say
