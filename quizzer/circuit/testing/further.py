"""Tests beyond the required ones: they find the place of a fault, or tell apart what the required ones leave alike."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.network import Branch
from quizzer.circuit.model.wiring import LIGHTS, Circuit
from quizzer.circuit.testing.reading import told_apart
from quizzer.circuit.testing.schedule import LEAST, LOWERED, RAISED, first, insulation
from quizzer.circuit.testing.tests import Test, TestSetting


def further(circuit: Circuit) -> tuple[Test, ...]:
    """The further tests of a circuit, those of continuity first."""
    if circuit.shape in {"three-phase", *STARTERS}:
        return ()
    placing = {"ring": _between_ends, **dict.fromkeys(LIGHTS, _of_lights)}.get(circuit.shape, _exchanged)
    return (*placing(circuit), *insulation(circuit, LOWERED))


def barred(circuit: Circuit) -> tuple[Test, ...]:
    """Tests that can be set on the instrument and are not done on such a circuit."""
    why = "1000 V is for circuits above 500 V; on this one it only harms what is sound or connected"
    return () if circuit.shape in {"three-phase", *STARTERS} else tuple(insulation(circuit, RAISED, why))


def followed(
    circuit: Circuit, tests: Sequence[Test], sound: Sequence[float], values: Sequence[float]
) -> tuple[Test, ...]:
    """The further tests that are done once required ones have failed.

    Insulation that failed is tested again at 250 V: damp stays low, electronics do not. A radial or lights whose
    continuity is not as it should be get their other tests of continuity; a ring has readings enough.
    """
    read = list(zip(tests, sound, values, strict=True))
    low = {test.probes for test, _, value in read if test.setting.volts and value < LEAST}
    odd = any(told_apart(test, before, now) for test, before, now in read if test.uses == "continuity")
    return tuple(
        test
        for test in further(circuit)
        if (test.probes in low if test.setting.volts else odd and circuit.shape != "ring")
    )


def _between_ends(circuit: Circuit) -> Iterator[Test]:
    joins = (Branch("N0", "Ex", 0.0), Branch("Nx", "E0", 0.0))
    group = "neutral and protective conductor ends cross-connected"
    for k, point in enumerate(circuit.points, 1):
        yield Test(f"NE-{k}", group, point, "continuity", TestSetting(joins), (f"N{k}", f"E{k}"))


def _exchanged(circuit: Circuit) -> Iterator[Test]:
    """Terminals of the last point that read open unless two conductors are exchanged there: an open one reads open."""
    k, point = len(circuit.points), circuit.points[-1]
    names = {"L": "line", "N": "neutral", "E": "earth"}
    for linked, words, one, other in (
        ("E", "protective conductor", "N", "E"),
        ("E", "protective conductor", "L", "N"),
        ("N", "neutral", "N", "E"),
    ):
        setting, group = (
            TestSetting((Branch("L0", f"{linked}0", 0.0),)),
            f"polarity, line and {words} linked at the board",
        )
        place = f"{names[one]} to {names[other]} at {point}"
        yield Test(f"{linked}-{one}{other}", group, place, "continuity", setting, (f"{one}{k}", f"{other}{k}"))


def _of_lights(circuit: Circuit) -> Iterator[Test]:
    """A neutral that comes from elsewhere, and each strapper by itself."""
    setting = TestSetting((), first(circuit))
    for k, light in enumerate(circuit.points, 1):
        group = "neutral of the next lighting circuit to the light's neutral"
        yield Test(f"borrowed-{k}", group, light, "continuity", setting, ("Q0", f"B{k}"))
    for wire in (wire for wire in circuit.wires if wire.role == "strapper"):
        place = _short(wire.where)
        yield Test(f"strapper-{wire.id}", "end to end", place, "continuity", setting, (wire.start, wire.end))


def _short(where: str) -> str:
    """Which strapper it is, short enough for a record sheet.

    >>> _short("in strapper 2 between switch 1 and the intermediate")
    'strapper 2 from switch 1'
    >>> _short("in strapper 1 between the intermediate and switch 3")
    'strapper 1 to switch 3'
    """
    strapper, _, between = where.removeprefix("in ").partition(" between ")
    one, _, other = between.partition(" and ")
    if "the intermediate" not in (one, other):
        return strapper
    return f"{strapper} from {one}" if other == "the intermediate" else f"{strapper} to {other}"
