"""Templates about resistances, each worked a second time as a network. Values come and go in SI."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from tests.published.networks import EARTH, current, impedance, potentials, ring

Values = Mapping[str, float]
PARALLEL_3 = ("R_1", "R_2", "R_3")


def parallel(*names: str) -> Callable[[Values], float]:
    """The reading of resistances side by side."""
    return lambda v: impedance([("a", EARTH, v[name]) for name in names], "a", EARTH).real


def network_total(v: Values) -> float:
    """Three in series with three side by side."""
    branches = [("a", "b", v["R_a"]), ("b", "c", v["R_b"]), ("c", "d", v["R_c"])]
    return impedance([*branches, *(("d", EARTH, v[name]) for name in PARALLEL_3)], "a", EARTH).real


def series_and_parallel(v: Values) -> float:
    """The supply's current through one in series with two side by side."""
    series = ("a", "b", v["R_s"])
    at = potentials([series, ("b", EARTH, v["R_1"]), ("b", EARTH, v["R_2"])], {"a": v["U"], EARTH: 0})
    return current(series, at).real


def total_of_three(v: Values) -> float:
    """All three branches' current, from a solution at one volt scaled until the second branch is right."""
    branches = [("a", EARTH, v[name]) for name in PARALLEL_3]
    amperes = [current(branch, {"a": 1, EARTH: 0}).real for branch in branches]
    return sum(amperes) * v["I_2"] / amperes[1]


def divided(v: Values) -> float:
    """The voltage on the lower of two in series."""
    return potentials([("a", "b", v["R_1"]), ("b", EARTH, v["R_2"])], {"a": v["U"], EARTH: 0})["b"].real


def voltage_at_a_lock(v: Values) -> float:
    """What is left at a load fed out and back through one wire each."""
    at = potentials(
        [("plus", "lock+", v["R"]), ("minus", "lock-", v["R"])],
        {"plus": v["U"], "minus": 0},
        {"lock+": -v["I"], "lock-": v["I"]},
    )
    return (at["lock+"] - at["lock-"]).real


def two_heaters(v: Values) -> float:
    """The power of two heaters in series, each known by its rating."""
    heaters = [("a", "b", v["U"] ** 2 / v["P_1"]), ("b", EARTH, v["U"] ** 2 / v["P_2"])]
    at = potentials(heaters, {"a": v["U"], EARTH: 0})
    return sum(abs(current(branch, at)) ** 2 * branch[2] for branch in heaters).real


def volts_at_the_load(v: Values) -> float:
    """What a load has behind a cable and a bad joint."""
    cable = [("supply", "joint", v["R_c"]), ("joint", "load", v["R_j"])]
    return potentials(cable, {"supply": v["U_0"]}, {"load": -v["I"]})["load"].real


def lost_neutral(v: Values) -> float:
    """The voltage on the first load when two phases have lost their neutral: phasors and a floating star point."""
    phase = v["U_L"] / 3**0.5
    second = phase * (-0.5 - 1j * 3**0.5 / 2)
    at = potentials([("L1", "N", v["R_1"]), ("L2", "N", v["R_2"])], {"L1": phase, "L2": second})
    return abs(at["L1"] - at["N"])


def metal_behind_the_loads(v: Values) -> float:
    """Metalwork on a broken PEN: the line reaches it through the loads, the electrode drains it."""
    load = ("line", "metal", v["U_0"] ** 2 / v["P"])
    return potentials([load, ("metal", EARTH, v["R_A"])], {"line": v["U_0"], EARTH: 0})["metal"].real


def tt_metal(v: Values) -> float:
    """Metalwork of a TT installation with a line fault; the supply's own electrode is in the loop."""
    star = {"line": v["U_0"], "star": 0}
    at = potentials([("line", "metal", 1e-9), ("metal", EARTH, v["R_A"]), (EARTH, "star", v["R_B"])], star)
    return (at["metal"] - at[EARTH]).real


def case_to_pipe(v: Values) -> float:
    """From a faulty case to the main earthing terminal: the external loop is all on the line side here."""
    loop = [("source", "board", v["Z_e"]), ("board", "case", v["R_1"]), ("case", EARTH, v["R_2"])]
    return potentials(loop, {"source": v["U_0"], EARTH: 0})["case"].real


def pipe_current(v: Values) -> float:
    """The part of a neutral current that a bonded pipe takes."""
    pipe = ("met", EARTH, v["R_p"])
    return current(pipe, potentials([pipe, ("met", EARTH, v["R_n"])], {EARTH: 0}, {"met": v["I"]})).real


def shorter_leg(v: Values) -> float:
    """The current in the shorter leg of a ring with one load; one ohm to the metre, which cancels."""
    leg = ("board", "load", v["x"])
    at = potentials([leg, ("load", "board", v["L"] - v["x"])], {"board": 0}, {"load": -v["I"]})
    return current(leg, at).real


def two_on_a_ring(v: Values) -> float:
    """The current at one end of a ring with two loads."""
    (first, near), (second, far) = sorted([(v["x_1"], v["I_1"]), (v["x_2"], v["I_2"])])
    gap = max(far and second - first, 1e-12)
    leg = ("A", "one", first)
    legs = [leg, ("one", "two", gap), ("two", "A", v["L"] - second)]
    return current(leg, potentials(legs, {"A": 0}, {"one": -near, "two": -far})).real


def behind_a_low_board(v: Values) -> float:
    """The circuit that, beside the rest, makes the whole read low: found by trying, not by the inverse sum."""
    low, high = 1e-3, 1e15
    for _ in range(200):
        middle = (low * high) ** 0.5
        reads = impedance([("a", EARTH, v["R_rest"]), ("a", EARTH, middle)], "a", EARTH).real
        low, high = (middle, high) if reads < v["R_all"] else (low, middle)
    return middle


def ring_middle(v: Values) -> float:
    """Line and protective conductor crossed, at the socket-outlet in the middle."""
    return ring(v["r_1"], v["r_2"], 0.5)


def ring_line_neutral(v: Values) -> float:
    """Line and neutral crossed, a third of the way round: where it is read makes no difference."""
    loop = (v["L_out"] + v["L_mid"] + v["L_back"]) * v["r"]
    return ring(loop, loop, 1 / 3)


def ring_spur(v: Values) -> float:
    """A spur from the middle of a ring whose protective conductor has 5/3 of the line's resistance, as 2.5/1.5."""
    spur = v["r"] * v["L_s"]
    return ring(1.5 * v["R_ring"], 2.5 * v["R_ring"], 0.5, (spur * 3 / 8, spur * 5 / 8))


def hidden_spur(v: Values) -> float:
    """How long a spur must be for the odd reading, from the readings with no spur and with one metre of it."""
    line, other = 1.5 * v["R_ring"], 2.5 * v["R_ring"]
    without = ring(line, other, 0.5)
    metre = ring(line, other, 0.5, (v["r"] * 3 / 8, v["r"] * 5 / 8)) - without
    return (v["R_s"] - without) / metre


def broken_leg(v: Values) -> float:
    """Line and protective conductor joined at the board, one leg sound: the reading at a socket-outlet on it."""
    each = v["r"] * v["L_leg"]
    return impedance([("L", "board", each * 3 / 8), ("E", "board", each * 5 / 8)], "L", "E").real


PEERS: dict[str, Callable[[Values], float]] = {
    "principles/series-parallel/two-in-parallel": parallel("R_1", "R_2"),
    "principles/series-parallel/network-total": network_total,
    "principles/series-parallel/series-and-parallel-current": series_and_parallel,
    "principles/series-parallel/total-of-three-branches": total_of_three,
    "principles/series-parallel/divided-voltage": divided,
    "principles/series-parallel/voltage-at-a-lock": voltage_at_a_lock,
    "principles/series-parallel/two-heaters-in-series": two_heaters,
    "faults/readings/volts-at-the-load": volts_at_the_load,
    "faults/readings/one-leg-of-a-ring-broken": broken_leg,
    "faults/neutral/volts-after-a-lost-neutral": lost_neutral,
    "faults/neutral/metalwork-after-a-lost-pen": metal_behind_the_loads,
    "supply/fault-paths/open-pen-metalwork-voltage": metal_behind_the_loads,
    "supply/fault-paths/tt-metalwork-voltage": tt_metal,
    "supply/fault-paths/touch-voltage-to-bonded-pipe": case_to_pipe,
    "supply/combined-earthing/neutral-current-in-a-pipe": pipe_current,
    "supply/electrodes/two-electrodes-together": parallel("R_1", "R_2"),
    "circuits/ring/current-in-the-shorter-leg": shorter_leg,
    "circuits/ring/two-loads-on-one-ring": two_on_a_ring,
    "testing/insulation/circuits-tested-together": parallel("R_a", "R_b", "R_c"),
    "testing/insulation/circuit-behind-a-low-board": behind_a_low_board,
    "testing/ring/cross-line-and-protective": ring_middle,
    "testing/ring/cross-line-and-neutral-from-plan": ring_line_neutral,
    "testing/ring/socket-on-a-spur": ring_spur,
    "testing/ring/length-of-a-hidden-spur": hidden_spur,
}
