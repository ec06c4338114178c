"""The tests of a starter: it is operated, read by continuity while it is dead, and by voltmeter along its rungs.

Terminals are named as EN 50005 marks them. What is pushed in by hand is pushed in dead and locked off.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from quizzer.circuit.model.control.parts import COILS, CONTACTS, Contact
from quizzer.circuit.model.control.standing import DIP, LET_GO, WAIT
from quizzer.circuit.model.fault import Uses
from quizzer.circuit.model.network import Branch, Pair
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.tests import SCHEDULED, Test, TestSetting

Doing = tuple[str, ...]
_HELD, _GONE = ("S1",), ("S1", LET_GO)
# What is done in a row, and how it is said.
_OPERATED: Mapping[str, tuple[tuple[str, Doing], ...]] = {
    "start-stop": (
        ("nothing pressed", ()),
        ("S1 held", _HELD),
        ("S1 let go", _GONE),
        ("then S0 held", (*_GONE, "S0")),
        ("S0 let go", (*_GONE, "S0", LET_GO)),
        ("running, then the supply off and on", (*_GONE, DIP)),
    ),
    "forward-reverse": (
        ("nothing pressed", ()),
        ("S1 held", _HELD),
        ("S1 let go", _GONE),
        ("S0 held from forward", (*_GONE, "S0")),
        ("S2 held", ("S2",)),
        ("S2 let go", ("S2", LET_GO)),
        ("S0 held from reverse", ("S2", LET_GO, "S0")),
        ("S2 held from forward", (*_GONE, "S2")),
    ),
    "star-delta": (
        ("nothing pressed", ()),
        ("S1 held", _HELD),
        ("S1 let go", _GONE),
        ("after the set time", (*_GONE, WAIT)),
        ("then S0 held", (*_GONE, WAIT, "S0")),
        ("S0 let go", (*_GONE, WAIT, "S0", LET_GO)),
    ),
}
_TOP = ("n1", "n2", "n3")
# Where the voltmeter is put, from a node to the neutral, and what is done meanwhile.
_READ: Mapping[str, tuple[tuple[str, Doing, tuple[str, ...]], ...]] = {
    "start-stop": (
        ("nothing pressed", (), _TOP),
        ("S1 held", _HELD, (*_TOP, "n4", "KM1 A2")),
        ("S1 let go", _GONE, ("n4",)),
        ("then S0 held", (*_GONE, "S0"), ("n4",)),
    ),
    "forward-reverse": (
        ("nothing pressed", (), _TOP),
        ("S1 held", _HELD, (*_TOP, "n4", "n5", "n6", "KM1 A2")),
        ("S1 let go", _GONE, ("n4",)),
        ("S2 held", ("S2",), ("n7", "n8", "n9", "KM2 A2")),
        ("S2 let go", ("S2", LET_GO), ("n7",)),
    ),
    "star-delta": (
        ("nothing pressed", (), _TOP),
        ("S1 held", _HELD, (*_TOP, "n4", "n5", "n6", "n7", "KM3 A2", "KM1 A2", "KT1 A2")),
        ("S1 let go", _GONE, ("n4", "n7")),
        ("after the set time", (*_GONE, WAIT), ("n5", "n7", "n8", "n9", "KM2 A2")),
    ),
}
# Rungs read from the fuse to the neutral, with these moved by hand.
_RUNGS: Mapping[str, tuple[tuple[str, ...], ...]] = {
    "start-stop": (("S1",), ("KM1",)),
    "forward-reverse": (("S1",), ("S2",)),
    "star-delta": (("S1",), ("S1", "KM3"), ("KM1",)),
}


def operations(shape: str) -> tuple[tuple[str, Doing], ...]:
    """What is done to a starter to see it work: in words, and in a row."""
    return _OPERATED[shape]


def starter_tests(circuit: Circuit) -> Iterator[Test]:
    """Every test of a starter but the look, in the trade's order: seen, dead, live."""
    yield from _operated(circuit)
    yield from _protective(circuit)
    yield from _rungs(circuit)
    yield from _by_hand(circuit)
    yield from _coils(circuit)
    yield from _windings(circuit)
    yield from _insulation(circuit)
    yield from _volts(circuit)


def _operated(circuit: Circuit) -> Iterator[Test]:
    for n, (words, doing) in enumerate(_OPERATED[circuit.shape]):
        yield Test(f"op-{n}", "operated", words, "operating", TestSetting(doing=doing), ("", ""))


def _protective(circuit: Circuit) -> Iterator[Test]:
    yield Test("cpc", "protective conductor, starter to motor", "", "continuity", TestSetting(), ("E0", "ME"))
    for wire in circuit.wires:
        if wire.role == "motor" and wire.core == "L":
            end = wire.id.removeprefix("line ")
            yield _of(f"line-{end}", "conductors, starter to motor", end, "continuity", (_panel(end), end))


def _panel(end: str) -> str:
    """The terminal of the starter that belongs to an end of the motor."""
    return f"{'T' if end[1] == '1' else 'X'}{'UVW'.index(end[0]) + 1}"


def _rungs(circuit: Circuit) -> Iterator[Test]:
    for names in _RUNGS[circuit.shape]:
        words = " and ".join(f"{name} {'pressed' if name.startswith('S') else 'pushed in'}" for name in names)
        yield _moved(circuit, f"rung-{'-'.join(names)}", "rungs, L to N through the coils", words, names, ("L", "N"))


def _by_hand(circuit: Circuit) -> Iterator[Test]:
    """The fuse, and each contact at rest and moved by hand; a timer is not moved by hand."""
    yield _of("closed-F1", "fuse and break contacts at rest", "F1", "ohms", ("L", "n1"))
    found = CONTACTS[circuit.shape]
    for each in found:
        if not each.makes:
            yield _of(f"closed-{each.label}", "fuse and break contacts at rest", each.label, "ohms", each.probes)
    for each in found:
        if each.makes and each.of != "F2":
            start = "pole" if each.pole else "idle"
            group = "main poles at rest" if each.pole else "make contacts at rest"
            uses: Uses = "continuity" if each.pole else "ohms"
            yield _of(f"{start}-{each.label}", group, each.label, uses, each.probes)
    for each in found:
        if not each.of.startswith("KT"):
            yield _worked(circuit, each)
    yield from _astray(circuit)


def _worked(circuit: Circuit, each: Contact) -> Test:
    """A contact with its button pressed, its relay tried or its armature pushed in."""
    if each.pole:
        return _moved(
            circuit, f"pushed-{each.label}", "main poles pushed in", each.label, (each.of,), each.probes,
            "continuity",
        )  # fmt: skip
    if each.makes:
        return _moved(circuit, f"made-{each.label}", "make contacts moved by hand", each.label, (each.of,), each.probes)
    start = "lock" if each.of.startswith("KM") else "broken"
    group = "interlocks, contactor pushed in" if start == "lock" else "break contacts moved by hand"
    return _moved(circuit, f"{start}-{each.label}", group, each.label, (each.of,), each.probes)


def _astray(circuit: Circuit) -> Iterator[Test]:
    """A hold-in contact by its own nodes, with the stop pressed; and by those of the other rung."""
    holds = [each for each in CONTACTS[circuit.shape] if each.of.startswith("KM") and each.one == "n3"]
    for each in holds:
        words = f"n3 to {each.other}, {each.of} pushed in, S0 pressed"
        yield _moved(circuit, f"own-{each.of}", "hold-in by its own nodes", words, (each.of, "S0"), each.pair)
    for each, other in zip(holds, reversed(holds), strict=True):
        if each != other:
            words = f"n3 to {other.other}, {each.of} pushed in"
            yield _moved(circuit, f"astray-{each.of}", "hold-in on the other rung", words, (each.of,), other.pair)


def _coils(circuit: Circuit) -> Iterator[Test]:
    for coil in COILS[circuit.shape]:
        yield _of(f"coil-{coil.of}", "coils, A1 to A2", coil.of, "ohms", (coil.node, coil.back))
    for coil in COILS[circuit.shape]:
        yield _of(f"back-{coil.of}", "coils, A2 to N", coil.of, "ohms", (coil.back, "N"))


def _windings(circuit: Circuit) -> Iterator[Test]:
    six = circuit.shape == "star-delta"
    pairs = [(f"{n}1", f"{n}2") for n in "UVW"] if six else [("U1", "V1"), ("V1", "W1"), ("W1", "U1")]
    for one, other in pairs:
        ends = (_panel(one), _panel(other))
        yield _of(f"winding-{one}", "windings from the starter", f"{one} to {other}", "continuity", ends)


def _insulation(circuit: Circuit) -> Iterator[Test]:
    for node, what in (("N", "control circuit to earth"), ("T1", "motor and its cable to earth")):
        sound = Branch(node, "E0", circuit.insulation)
        joined = tuple(Branch("T1", other, 0.0) for other in ("T2", "T3")) if node == "T1" else ()
        setting = TestSetting((sound, *joined), (), SCHEDULED)
        yield Test(f"ir-{node}", f"insulation at {SCHEDULED} V", what, "insulation", setting, (node, "E0"))


def _volts(circuit: Circuit) -> Iterator[Test]:
    for words, doing, nodes in _READ[circuit.shape]:
        for node in nodes:
            yield Test(
                f"v-{words}-{node}", f"control voltage to N, {words}", node, "control", TestSetting(doing=doing),
                (node, "N"),
            )  # fmt: skip


def _of(name: str, group: str, place: str, uses: Uses, probes: Pair) -> Test:
    return Test(name, group, place, uses, TestSetting(), probes)


def _moved(
    circuit: Circuit, name: str, group: str, place: str, names: tuple[str, ...], probes: Pair, uses: Uses = "ohms"
) -> Test:
    positions = tuple(int(switch.name in names) for switch in circuit.switches)
    return Test(name, group, place, uses, TestSetting((), positions), probes)
