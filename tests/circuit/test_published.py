"""The model against published rules: every row of tests/published/circuits.toml, and a general network solver."""

import tomllib
from itertools import pairwise
from pathlib import Path
from random import Random

import numpy as np
import pytest

from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.edits import AddedOhms
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.network import Branch, potentials, resistances
from quizzer.circuit.model.phases import LINES, SOURCE, volts
from quizzer.circuit.model.supply import RESIDUAL_AMPS, TOUCH_VOLTS
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.model.switching import truth_table
from quizzer.circuit.model.wiring import Device, ohms
from quizzer.circuit.testing.schedule import prospective

ROWS = tomllib.loads((Path(__file__).parents[1] / "published" / "circuits.toml").read_text(encoding="utf-8"))
CHECKED = {
    "ring",
    "parallel",
    "loop",
    "current",
    "neutral",
    "conductor",
    "device",
    "truth",
    "touch",
    "ratio",
    "cable",
    "temperature",
    "star",
    "three_phase",
}


def test_every_kind_of_row_is_checked():
    assert set(ROWS) == CHECKED
    assert all(row["source"] for rows in ROWS.values() for row in rows)


def a_ring(r1, r2, points=8):
    """Three cores of a ring with so many equal parts."""
    cores = {"L": r1, "N": r1, "E": r2}
    parts = points + 1
    return [
        Branch(f"{core}{n}", f"{core}{n + 1 if n < points else 'x'}", whole / parts)
        for core, whole in cores.items()
        for n in range(parts)
    ]


def crossed(other):
    """The two ends cross-connected."""
    return [Branch("L0", f"{other}x", 0.0), Branch("Lx", f"{other}0", 0.0)]


@pytest.mark.parametrize("row", ROWS["ring"])
def test_a_sound_ring_reads_a_quarter_at_every_point(row):
    ring = a_ring(row["r1"], row["r2"])
    for other, key in (("N", "cross_neutral"), ("E", "cross_protective")):
        pairs = [(f"L{k}", f"{other}{k}") for k in range(1, 9)]
        found = resistances([*ring, *crossed(other)], pairs)
        if other == "N":
            assert found == pytest.approx([row[key]] * 8)
        else:  # with cores of two sizes the rule holds at the middle, and within 7 % everywhere
            assert sum(found) / 8 == pytest.approx(row[key], rel=0.07)
            assert max(found) == pytest.approx(row[key], rel=0.002)


def test_ends_joined_the_wrong_way_give_readings_that_rise_to_the_middle():
    wrong = [Branch("L0", "N0", 0.0), Branch("Lx", "Nx", 0.0)]
    found = resistances([*a_ring(0.6, 1.0, 9), *wrong], [(f"L{k}", f"N{k}") for k in range(1, 10)])
    assert all(one < other for one, other in pairwise(found[:5]))
    assert found == pytest.approx(found[::-1])
    assert found[4] == pytest.approx(0.6 / 4 * 2)


def test_a_spur_adds_its_own_length():
    spur = [Branch("L3", "L20", 0.05), Branch("N3", "N20", 0.05)]
    (found,) = resistances([*a_ring(0.6, 1.0), *spur, *crossed("N")], [("L20", "N20")])
    assert found == pytest.approx(0.3 + 0.1)


def test_an_open_leg_reads_the_whole_of_one_conductor_everywhere():
    ring = [branch for branch in a_ring(0.6, 1.0) if branch.start != "N4"]
    found = resistances([*ring, *crossed("N")], [(f"L{k}", f"N{k}") for k in range(1, 9)])
    assert found == pytest.approx([0.6] * 8)


@pytest.mark.parametrize("row", ROWS["parallel"])
def test_insulation_in_parallel(row):
    branches = [Branch("a", "b", value * 1e6) for value in row["megohms"]]
    assert resistances(branches, [("a", "b")], solid=1000.0)[0] / 1e6 == pytest.approx(row["expect"], rel=2e-4)


@pytest.mark.parametrize("row", ROWS["loop"])
def test_the_loop_is_the_supply_and_the_circuit(row):
    loop = [Branch("L0", "E0", row["z_e"]), Branch("L0", "L1", row["r"] / 3), Branch("E0", "E1", row["r"] * 2 / 3)]
    assert resistances(loop, [("L1", "E1")])[0] == pytest.approx(row["expect"])


@pytest.mark.parametrize("row", ROWS["current"])
def test_prospective_current(row):
    assert prospective(row["z"]) == pytest.approx(row["expect"])


@pytest.mark.parametrize("row", ROWS["neutral"])
def test_a_lost_neutral_shares_the_line_voltage(row):
    branches = [Branch("A", "N", row["loads"][0]), Branch("B", "N", row["loads"][1])]
    found = potentials(branches, {"A": row["across"] + 0j, "B": 0j})
    assert [abs(found["A"] - found["N"]), abs(found["N"])] == pytest.approx(row["volts"], rel=5e-4)


@pytest.mark.parametrize("row", ROWS["star"])
def test_the_neutral_of_an_unbalanced_star(row):
    phase = row["line_volts"] / 3**0.5
    loads = [phase**2 / (1000 * each) for each in row["kilowatts"]]
    fixed = {line: SOURCE[line] * phase / 230 for line in ("L1", "L2", "L3")} | {"star": 0j}
    thin = 1e-6  # ohms of the neutral, so that its current shows as a voltage
    star = [*(Branch(line, "N", ohms) for line, ohms in zip(LINES, loads, strict=True)), Branch("N", "star", thin)]
    found = potentials(star, fixed)
    currents = [abs(fixed[line] - found["N"]) / ohms for line, ohms in zip(LINES, loads, strict=True)]
    assert currents == pytest.approx(row["amperes"], rel=3e-3)
    assert abs(found["N"]) / thin == pytest.approx(row["neutral"], rel=3e-3)


@pytest.mark.parametrize("seed", range(5))
def test_a_board_with_its_neutral_lost_follows_the_sum_of_phasors(seed):
    """The star point of unequal loads lies at the sum of V/R over the sum of 1/R; worked with numpy, not the model."""
    board = drawn("three-phase", 2, 2, Random(seed).random)
    lost = with_fault(board, next(fault for fault in suspects(board) if fault.kind == "lost-neutral"))
    turn = np.exp(-2j * np.pi / 3 * np.arange(3)) * 230
    loads = np.array([load.ohms for load in board.loads[:3]])
    point = (turn / loads).sum() / (1 / loads).sum()
    found = [volts(lost, line, "N") for line in LINES]
    assert found == pytest.approx(list(abs(turn - point)), rel=5e-3)
    assert max(found) > 260
    assert min(found) < 200


def test_a_motor_on_two_lines_has_half_the_voltage_at_its_open_terminal():
    board = drawn("three-phase", 2, 2, Random(1).random)
    fault = next(fault for fault in suspects(board) if fault.at == AddedOhms("motor-L3"))
    u_v, v_w, w_u = (volts(with_fault(board, fault), one, other) for one, other in ("UV", "VW", "WU"))
    assert (v_w, w_u) == pytest.approx((u_v / 2, u_v / 2), rel=1e-6)
    assert u_v == pytest.approx(230 * 3**0.5, rel=0.02)


def test_a_sound_star_keeps_each_load_at_its_own_voltage():
    branches = [Branch(f"source-{line}", "N", 40.0) for line in ("L1", "L2", "L3")]
    fixed = {f"source-{line}": SOURCE[line] for line in ("L1", "L2", "L3")}
    assert abs(potentials(branches, fixed)["N"]) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("row", ROWS["conductor"])
def test_a_conductor(row):
    assert ohms(row["metres"], row["mm2"], 20) == pytest.approx(row["expect"])


@pytest.mark.parametrize("row", ROWS["cable"])
def test_a_cable_of_two_sizes(row):
    assert sum(ohms(50, mm2, 20) for mm2 in row["sizes"]) == pytest.approx(row["expect"], abs=0.006)


@pytest.mark.parametrize("row", ROWS["ratio"])
def test_the_ratio_of_two_conductors(row):
    """Sizes are nominal: the standard's ohms give 1.63, which the printed rule rounds to the ratio of the sizes."""
    assert ohms(50, row["protective"], 20) / ohms(50, row["line"], 20) == pytest.approx(row["expect"], rel=0.025)


@pytest.mark.parametrize("row", ROWS["temperature"])
def test_a_conductor_on_a_warm_or_cold_day(row):
    """The table uses 0.004 a degree, the model 0.00393."""
    assert ohms(50, 2.5, 20) / ohms(50, 2.5, row["degrees"]) == pytest.approx(row["expect"], rel=1.5e-3)


@pytest.mark.parametrize("row", ROWS["device"])
def test_the_limit_of_a_device(row):
    assert round(Device(row["device"][0], int(row["device"][1:])).limit, 2) == row["expect"]


@pytest.mark.parametrize("row", ROWS["touch"])
def test_the_limit_of_a_residual_current_device(row):
    assert row["milliamperes"] == RESIDUAL_AMPS * 1000
    assert round(TOUCH_VOLTS / RESIDUAL_AMPS) == row["expect"]


@pytest.mark.parametrize("row", ROWS["truth"], ids=lambda row: row["shape"])
def test_switching_is_as_the_textbook_says(row):
    found = truth_table(drawn(row["shape"], 1, 1, Random(1).random))
    assert sorted("".join(map(str, at)) for at, lit in found.items() if lit) == row["lit"]


# ---- a general-purpose solver of networks, which shares no code with ours ------------------------------------


def by_a_general_solver(branches, start, end):
    """The ohms between two nodes: a source of 1 kV at `start`, 1 S to earth at `end`, and the voltage that is left.

    The library knows three-phase networks: a line to line voltage of sqrt(3) kV puts 1 kV on each phase.
    """
    import numpy as np
    from power_grid_model import ComponentType as Kind
    from power_grid_model import PowerGridModel, initialize_array

    nodes = {node: n for n, node in enumerate(sorted({node for branch in branches for node in branch[:2]}))}
    node = initialize_array("input", Kind.node, len(nodes))
    node["id"], node["u_rated"] = range(len(nodes)), 1e3 * 3**0.5
    line = initialize_array("input", Kind.line, len(branches))
    line["id"] = np.arange(len(branches)) + 1000
    line["from_node"], line["to_node"] = ([nodes[branch[side]] for branch in branches] for side in (0, 1))
    line["from_status"] = line["to_status"] = 1
    line["r1"], line["i_n"] = [branch.ohms for branch in branches], 1e3
    line["x1"] = line["c1"] = line["tan1"] = 0.0
    source = initialize_array("input", Kind.source, 1)
    source["id"], source["node"], source["status"], source["u_ref"], source["sk"] = 5000, nodes[start], 1, 1.0, 1e20
    shunt = initialize_array("input", Kind.shunt, 1)
    shunt["id"], shunt["node"], shunt["status"], shunt["g1"], shunt["b1"] = 6000, nodes[end], 1, 1.0, 0.0
    network = PowerGridModel({Kind.node: node, Kind.line: line, Kind.source: source, Kind.shunt: shunt})
    left = network.calculate_power_flow()[Kind.node]["u_pu"][nodes[end]]
    return float((1 - left) / left)


@pytest.mark.parametrize("seed", range(40))
def test_random_networks_of_up_to_forty_nodes_agree_with_a_general_solver(seed):
    dice = Random(seed).random
    size = 3 + int(dice() * 38)
    tree = [Branch(f"n{n}", f"n{int(dice() * n)}", 0.01 + 5 * dice()) for n in range(1, size)]
    more = [Branch(f"n{int(dice() * size)}", f"n{int(dice() * size)}", 0.01 + 5 * dice()) for _ in range(size)]
    branches = tree + [branch for branch in more if branch.start != branch.end]
    (ours,) = resistances(branches, [("n0", f"n{size - 1}")])
    assert ours == pytest.approx(by_a_general_solver(branches, "n0", f"n{size - 1}"), rel=1e-6)


@pytest.mark.parametrize("shape", [shape for shape in SHAPES if shape != "three-phase"])
def test_drawn_circuits_agree_with_a_general_solver(shape):
    circuit = drawn(shape, 12, 12, Random(3).random)
    wires = [wire.branch for wire in circuit.wires if wire.core == "E"]
    end = wires[-1].end
    assert resistances(wires, [("E0", end)])[0] == pytest.approx(by_a_general_solver(wires, "E0", end), rel=1e-6)
