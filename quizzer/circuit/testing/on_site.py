"""Tests that are done on site beside those of a record sheet: lines to a motor, the incoming supply, every loop."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model import phases
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.network import Branch
from quizzer.circuit.model.wiring import LIGHTS, Circuit
from quizzer.circuit.testing import at_origin, every_pair
from quizzer.circuit.testing.of_rcds import PUSH_MAIN, rows
from quizzer.circuit.testing.schedule import POLES, insulated, of_the_rcd, settings
from quizzer.circuit.testing.starter_site import on_a_site
from quizzer.circuit.testing.tests import SCHEDULED, Test, TestSetting


def on_site(circuit: Circuit) -> tuple[Test, ...]:
    """The tests, dead ones first."""
    if circuit.shape == "three-phase":
        return (*_lines(), *_incoming(), _motor_loop(circuit))
    if circuit.shape in STARTERS:
        return ()
    if circuit.shape in LIGHTS:
        return (*_split(circuit), _light_loop(circuit))
    crossed = _crossed(circuit) if circuit.shape == "ring" else ()
    return (*crossed, *_split(circuit), *_loops(circuit))


def further_on_site(circuit: Circuit) -> tuple[Test, ...]:
    """Tests of RCDs, of leakage and at the origin, of which no record sheet of a question says anything."""
    first = of_the_rcd() if circuit.shape in STARTERS and circuit.has_rcd else ()
    of_rcd = (Test(name, group, place, uses, TestSetting(), ("", "")) for name, group, place, uses in rows(circuit))
    return (*on_a_site(circuit), *first, *of_rcd, *_origin(circuit), *_of_three(circuit), *_beyond_a_spur(circuit))


def of_new_parts(circuit: Circuit) -> tuple[Test, ...]:
    """Tests that a part put in new wants, and that are numbered last: no dice are thrown for what they show."""
    if not (circuit.has_rcd and circuit.has_main_rcd):
        return ()
    return (Test(PUSH_MAIN, "test button of the main RCD", "", "button", TestSetting(), ("", "")),)


def _beyond_a_spur(circuit: Circuit) -> Iterator[Test]:
    """The last spur of a ring with the spur before it disconnected: open where one is fed from the other."""
    spurs = [k for k, name in enumerate(circuit.points, 1) if name.startswith("spur")]
    if len(spurs) < 2:
        return
    first, last = spurs[-2:]
    parted = tuple(wire.id for wire in circuit.wires if wire.end in {f"{core}{first}" for core in "LNE"})
    for other, name in (("N", "neutral"), ("E", "protective conductor")):
        joins = (Branch("L0", f"{other}x", 0.0), Branch("Lx", f"{other}0", 0.0))
        group = f"line and {name} ends cross-connected, spur socket {first} disconnected"
        probes = (f"L{last}", f"{other}{last}")
        setting = TestSetting(joins, (), 0, parted)
        yield Test(f"beyond-{other}", group, circuit.points[last - 1], "continuity", setting, probes)


def _origin(circuit: Circuit) -> Iterator[Test]:
    for name, group, place, uses, probes in at_origin.rows(circuit):
        joins = (at_origin.EARTHING,) if uses == "continuity" else ()
        yield Test(name, group, place, uses, TestSetting(joins), probes)


def _of_three(circuit: Circuit) -> Iterator[Test]:
    """Tests of a three-phase board between every pair and of every line."""
    if circuit.shape != "three-phase":
        return
    for row in (*every_pair.insulation(circuit), *every_pair.loops(circuit), *every_pair.currents()):
        volts = SCHEDULED if row.uses == "insulation" else 0
        setting = TestSetting(row.joins, (), volts, row.parted)
        yield Test(row.id, row.group, row.place, row.uses, setting, row.probes)


def _split(circuit: Circuit) -> Iterator[Test]:
    """Insulation from the board with the circuit parted beyond a point: low while what has failed is on this side.

    A ring is parted at its second leg as well.
    """
    second = {wire.id for wire in circuit.wires if wire.end in {"Lx", "Nx", "Ex"}}
    for k, point in enumerate(circuit.points, 1):
        beyond = {wire.id for wire in circuit.wires for core in "LNE" if wire[2:4] == (f"{core}{k}", f"{core}{k + 1}")}
        setting = insulated(circuit, SCHEDULED, (), tuple(sorted(beyond | second)))
        group = f"insulation at {SCHEDULED} V, parted beyond {point.replace('light', 'switch')}"
        for one, other in ("LN", "LE", "NE") if beyond else ():
            place = f"{POLES[one]} to {POLES[other]}"
            yield Test(f"split-{k}-{one}{other}", group, place, "insulation", setting, (f"{one}0", f"{other}0"))


def _crossed(circuit: Circuit) -> Iterator[Test]:
    """The line terminal of a ring's sockets while neutral and earth are crossed: open, unless line is exchanged there.

    It tells a line and a neutral that are exchanged on a spur from a spur with an open protective conductor.
    """
    setting = TestSetting((Branch("N0", "Ex", 0.0), Branch("Nx", "E0", 0.0)))
    group = "neutral and protective conductor ends cross-connected, line to earth"
    for k, point in enumerate(circuit.points, 1):
        yield Test(f"NE-L{k}", group, point, "continuity", setting, (f"L{k}", f"E{k}"))


def _lines() -> Iterator[Test]:
    for line, end in zip(phases.LINES, phases.MOTOR, strict=True):
        place = f"{line} to {end}"
        yield Test(f"line-{end}", "line conductors, board to motor", place, "continuity", TestSetting(), (line, end))


def _incoming() -> Iterator[Test]:
    """Every line to every other as well: a board without its neutral shows nothing to neutral, and is live."""
    group = "voltage at the incoming terminals"
    pairs = [("L1", "L2"), ("L2", "L3"), ("L3", "L1"), *((line, other) for other in "NE" for line in phases.LINES)]
    for line, other in pairs:
        place = f"{line} to {'earth' if other == 'E' else other}"
        yield Test(f"in-{line}-{other}", group, place, "incoming", TestSetting(), (line, other))


def _motor_loop(circuit: Circuit) -> Test:
    back = Branch("source-L1", "star", circuit.supply.z_e - every_pair.TAILS)
    return Test("loop", "earth fault loop", "the motor", "loop", TestSetting((back,)), (phases.MOTOR[0], "ME"))


def _loops(circuit: Circuit) -> Iterator[Test]:
    """The loop at every point but the last, which is in the schedule."""
    legs = tuple(Branch(f"{core}0", f"{core}x", 0.0) for core in "LNE") if circuit.shape == "ring" else ()
    setting = TestSetting((*legs, *at_origin.source(circuit.supply)))
    for k, point in enumerate(circuit.points[:-1], 1):
        yield Test(f"loop-{k}", "earth fault loop", point, "loop", setting, (f"L{k}", f"E{k}"))


def _light_loop(circuit: Circuit) -> Test:
    """The loop at the last light, its switch on."""
    k = len(circuit.points)
    lit = next(positions for at, positions, _, _ in settings(circuit) if at == k)
    setting = TestSetting(at_origin.source(circuit.supply), lit)
    return Test("loop", "earth fault loop", circuit.points[-1], "loop", setting, (f"A{k}", f"F{k}"))
