"""The tests a circuit is given, in their order, and what each instrument reads of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from quizzer.circuit.model import phases
from quizzer.circuit.model.control.motor import seen
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.control.standing import volts as control_volts
from quizzer.circuit.model.network import Branch, Joint, network_of
from quizzer.circuit.model.supply import VOLTS
from quizzer.circuit.model.switching import works
from quizzer.circuit.model.wiring import LIGHTS, SOCKETS, Circuit, with_wires
from quizzer.circuit.testing import at_origin, every_pair, of_rcds
from quizzer.circuit.testing.starter_site import READS
from quizzer.circuit.testing.starter_tests import starter_tests
from quizzer.circuit.testing.tests import SCHEDULED, Test, TestSetting

TYPES = "BCD"
RCD = "RCD 30 mA without delay"  # what stands on a drawing of a circuit that has one
NETWORKED = {
    "continuity",
    "ohms",
    "insulation",
    "loop",
}  # they read the ohms between the probes
# Volts d.c. of insulation tests by the notes to BS 7671 Table 64: where a surge device or electronics cannot be
# disconnected; and above 500 V. A megohm is wanted of each.
LOWERED, RAISED = 250, 1000
LEAST, SOUND = 1e6, 20e6  # ohms that are wanted, and above which nobody asks how many there are
POLES = {"L": "line", "N": "neutral", "E": "earth"}
_AGAINST_MEGOHMS = 1000.0  # under so many ohms two conductors count as joined


def schedule(circuit: Circuit) -> tuple[Test, ...]:
    """Every test of the circuit, dead ones first, in the order of the schedule."""
    if circuit.shape == "three-phase":
        return tuple(_three_phase(circuit))
    if circuit.shape in STARTERS:
        return (_look(), *starter_tests(circuit))
    dead = {"ring": _ring, **dict.fromkeys(LIGHTS, _lights)}.get(circuit.shape, _radial)
    return (_look(), *dead(circuit), *insulation(circuit), *_live(circuit))


def _look() -> Test:
    return Test("look", "device seen at the board", "", "eye", TestSetting(), ("", ""))


def _ring(circuit: Circuit) -> Iterator[Test]:
    for core, name in (("L", "line"), ("N", "neutral"), ("E", "protective conductor")):
        yield Test(f"ends-{core}", "ring end to end", name, "continuity", TestSetting(), (f"{core}0", f"{core}x"))
    for other, name in (("N", "neutral"), ("E", "protective conductor")):
        crossed = TestSetting((Branch("L0", f"{other}x", 0.0), Branch("Lx", f"{other}0", 0.0)))
        yield from _points(circuit, other, f"line and {name} ends cross-connected", crossed)
    for core, name in (("L", "line"), ("N", "neutral")):
        group = "a leg of the next ring to this ring's second leg"
        yield Test(f"other-ring-{core}", group, name, "continuity", TestSetting(), ("other leg", f"{core}x"))


def _radial(circuit: Circuit) -> Iterator[Test]:
    for other, name in (("E", "protective conductor"), ("N", "neutral")):
        linked = TestSetting((Branch("L0", f"{other}0", 0.0),))
        yield from _points(circuit, other, f"line and {name} linked at the board", linked)


def _points(circuit: Circuit, other: str, group: str, setting: TestSetting) -> Iterator[Test]:
    for k, point in enumerate(circuit.points, 1):
        yield Test(f"L{other}-{k}", group, point, "continuity", setting, (f"L{k}", f"{other}{k}"))


def _lights(circuit: Circuit) -> Iterator[Test]:
    for other, end, name in (("E", "F", "protective conductor"), ("N", "B", "neutral")):
        join = (Branch("L0", f"{other}0", 0.0),)
        for k, positions, words, place in settings(circuit):
            group = f"line and {name} linked at the board, {words}"
            setting = TestSetting(join, positions)
            yield Test(f"L{other}-{place}-{words}", group, place, "continuity", setting, (f"A{k}", f"{end}{k}"))
    for plate in (wire for wire in circuit.wires if wire.role == "plate"):
        group, setting = "protective conductor, board to switch", TestSetting((), first(circuit))
        yield Test(plate.id, group, plate.where.removeprefix("at "), "continuity", setting, ("E0", plate.end))


def settings(circuit: Circuit) -> Iterator[tuple[int, tuple[int, ...], str, str]]:
    """Each light with each setting of the switches that says something about it: positions, words and place."""
    count = len(circuit.switches)
    if circuit.shape == "lighting":
        for at, word in ((1, "its switch on"), (0, "its switch off")):
            for k, light in enumerate(circuit.points, 1):
                yield k, tuple(at if n == k else 0 for n in range(1, count + 1)), word, light
        return
    for code in range(2**count):
        positions = tuple(code >> n & 1 for n in range(count))
        yield 1, positions, "read at the light", "switches " + "-".join("up" if at else "down" for at in positions)


def first(circuit: Circuit) -> tuple[int, ...]:
    """Every switch in its first position."""
    return (0,) * len(circuit.switches)


def insulation(circuit: Circuit, volts: int = SCHEDULED, never: str = "") -> Iterator[Test]:
    """The three insulation tests of a circuit at so many volts."""
    setting = insulated(circuit, volts, _legs(circuit))
    for one, other in ("LN", "LE", "NE"):
        place, probes = f"{POLES[one]} to {POLES[other]}", (f"{one}0", f"{other}0")
        name = f"ir-{one}{other}" if volts == SCHEDULED else f"ir-{volts}-{one}{other}"
        yield Test(name, f"insulation at {volts} V", place, "insulation", setting, probes, never)


def insulated(circuit: Circuit, volts: int, joins: tuple[Branch, ...], parted: tuple[str, ...] = ()) -> TestSetting:
    """The state of an insulation test from the board: switches closed, and sound insulation between all cores."""
    positions = tuple(1 for _ in circuit.switches) if circuit.shape == "lighting" else first(circuit)
    sound = tuple(Branch(f"{one}0", f"{other}0", circuit.insulation) for one, other in ("LN", "LE", "NE"))
    return TestSetting((*joins, *sound), positions, volts, parted)


def _legs(circuit: Circuit) -> tuple[Branch, ...]:
    return tuple(Branch(f"{core}0", f"{core}x", 0.0) for core in "LNE") if circuit.shape == "ring" else ()


def _live(circuit: Circuit) -> Iterator[Test]:
    if circuit.shape in LIGHTS:
        for k, positions, words, place in settings(circuit):
            if words != "its switch off":
                yield Test(
                    f"works-{place}", "switching", place, "function", TestSetting((), positions), (f"A{k}", f"B{k}")
                )
    else:
        k = len(circuit.points)
        setting = TestSetting((*_legs(circuit), *at_origin.source(circuit.supply)))
        for other, place in (("N", "line to neutral"), ("E", "line to earth")):
            group = "prospective fault current at the board"
            yield Test(f"current-{other}", group, place, "prospective", TestSetting(), ("L0", f"{other}0"))
        yield Test("loop", "earth fault loop", circuit.points[-1], "loop", setting, (f"L{k}", f"E{k}"))
    yield from of_the_rcd()


def of_the_rcd() -> Iterator[Test]:
    """The RCD at its rated residual current, and what leaks through it."""
    yield Test("rcd", "RCD at its rated residual current", "", "rcd", TestSetting(), ("", ""))
    yield Test("leakage", "standing leakage", "", "leakage", TestSetting(), ("", ""))


def _three_phase(circuit: Circuit) -> Iterator[Test]:
    yield _look()
    yield Test("cpc", "protective conductor, board to motor", "", "continuity", TestSetting(), ("E", "ME"))
    for row in every_pair.motor_connected(circuit):
        setting = TestSetting(row.joins, (), SCHEDULED, row.parted)
        yield Test(row.id, row.group, row.place, row.uses, setting, row.probes)
    for line in phases.LINES:
        yield Test(f"{line}-N", "voltage at the board", f"{line} to N", "voltage", TestSetting(), (line, "N"))
    for n in range(3):
        one, other = phases.MOTOR[n], phases.MOTOR[(n + 1) % 3]
        place = f"{one} to {other}"
        yield Test(
            f"{one}-{other}", "voltage at the terminals of the motor", place, "voltage", TestSetting(), (one, other)
        )
    yield Test("sequence", "phase sequence at the motor", "", "sequence", TestSetting(), ("", ""))
    if circuit.has_rcd:
        yield from of_the_rcd()


def readings(circuit: Circuit, tests: Sequence[Test]) -> list[float]:
    """What each test gives, in SI: ohms, volts, seconds as ms and leakage as mA; one solution for each state."""
    found: dict[str, float] = {}
    states: dict[TestSetting, list[Test]] = {}
    for test in tests:
        if test.uses in NETWORKED:
            states.setdefault(test.setting, []).append(test)
        elif test.uses in _BY_ID:
            found[test.id] = _BY_ID[test.uses](circuit, test.id)
        else:
            found[test.id] = _DIRECT[test.uses](circuit, test)
    for setting, together in states.items():
        pairs = [(circuit.node(test.probes[0]), circuit.node(test.probes[1])) for test in together]
        branches, solid = in_state(circuit, setting)
        network = network_of(tuple(branches), solid)
        found |= {test.id: network.between(*pair) for test, pair in zip(together, pairs, strict=True)}
    return [at_origin.as_fed(circuit, test.uses, test.probes, found[test.id]) for test in tests]


def in_state(circuit: Circuit, setting: TestSetting) -> tuple[list[Joint], float]:
    """The circuit in the state of a test: every branch, and the ohms up to which one is a solid joint."""
    if setting.parted:
        circuit = with_wires(circuit, tuple(wire for wire in circuit.wires if wire.id not in setting.parted))
    branches = circuit.branches(setting.positions or first(circuit), setting.volts)
    return [*branches, *at_origin.as_found(circuit, setting.joins)], _AGAINST_MEGOHMS if setting.volts else 0.0


def prospective(ohms: float) -> float:
    """The prospective fault current in amperes of a 230 V supply through a loop of so many ohms."""
    return VOLTS / ohms


def _at_origin(circuit: Circuit, test: Test) -> float:
    if test.probes[1] == "N0":
        return circuit.supply.z_n
    return circuit.supply.z_e + circuit.supply_joint + circuit.earth_joint


def _incoming(circuit: Circuit, test: Test) -> float:
    single = circuit.shape in {*SOCKETS, *LIGHTS}
    return at_origin.volts(circuit, test.probes) if single else phases.incoming(circuit, *test.probes)


_BY_ID = {**of_rcds.BY_ID, **at_origin.BY_ID, **every_pair.BY_ID}  # what each reads by its id
_DIRECT: dict[str, Callable[[Circuit, Test], float]] = {
    "eye": lambda circuit, _: float(TYPES.index(circuit.device.type)),
    "rcd": lambda circuit, _: circuit.rcd_ms,
    "prospective": lambda circuit, test: prospective(_at_origin(circuit, test)),
    "voltage": lambda circuit, test: phases.volts(circuit, *test.probes),
    "incoming": _incoming,
    "sequence": lambda circuit, _: phases.sequence(circuit),
    "operating": lambda circuit, test: float(seen(circuit, test.setting.doing)),
    "control": lambda circuit, test: control_volts(circuit, test.setting.doing, test.probes),
    "function": lambda circuit, test: works(circuit, test.setting.positions, test.probes),
    **READS,
}
