"""What is measured at the origin with the main switch off, and what a fault there changes in all other readings."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import inf

from quizzer.circuit.model.fault import Uses
from quizzer.circuit.model.network import Branch, Pair
from quizzer.circuit.model.supply import VOLTS, Supply
from quizzer.circuit.model.wiring import LIGHTS, SOCKETS, Circuit

EARTHING = Branch("MET", "earth of the supply", 0.02)  # ohms of the main earthing conductor
BY_ID: dict[str, Callable[[Circuit, str], float]] = {
    "origin": lambda circuit, _: circuit.supply.z_e + circuit.supply_joint,
}
_WITHOUT_VOLTS = {"loop", "rcd", "half", "five", "ramp"}  # instruments that find no voltage from line to earth
# Without its neutral: a tester starts only where its three leads find line, neutral and earth (common practice), a test
# button and a lamp have no way back.
_WITHOUT_NEUTRAL = {**dict.fromkeys((*_WITHOUT_VOLTS, "main"), inf), "button": 0.0, "function": 0.0}

_WITHOUT_LINE = {**_WITHOUT_NEUTRAL, "origin": inf, "leakage": 0.0}


def rows(circuit: Circuit) -> Iterator[tuple[str, str, str, Uses, Pair]]:
    """Id, group, place, instrument and probes of each of these tests."""
    if circuit.shape not in {*SOCKETS, *LIGHTS}:
        return
    for one, other in ("LN", "LE", "NE"):
        names = {"L": "line", "N": "neutral", "E": "earth"}
        place = f"{names[one]} to {names[other]}"
        yield f"origin-{one}{other}", "voltage at the origin", place, "incoming", (one, other)
    yield "origin-ze", "external loop Ze, earthing conductor off", "", "origin", ("", "")
    yield "origin-earth", "main earthing conductor, end to end", "", "continuity", EARTHING[:2]


def source(supply: Supply) -> tuple[Branch, ...]:
    """Line, neutral and earth back to the star point; half of the line-neutral loop lies in the line."""
    half = supply.z_n / 2
    back = {"L": half, "N": half, "E": supply.z_e - half}
    return tuple(Branch(f"{core}0", "source", ohms) for core, ohms in back.items())


def volts(circuit: Circuit, pair: Pair) -> float:
    """The voltage between two incoming terminals of a single-phase supply, its main switch off; 0 to what is lost."""
    if circuit.line_dead or (circuit.neutral_lost and "N" in pair):
        return 0.0
    live = "N" if circuit.supply_reversed else "L"
    return VOLTS if live in pair else 0.0


def as_found(circuit: Circuit, joins: tuple[Branch, ...]) -> tuple[Branch, ...]:
    """The joins of a test with what is bad at the origin in series."""
    if not (circuit.earth_joint or circuit.supply_joint):
        return joins
    more = {
        ("E0", "source"): circuit.earth_joint + circuit.supply_joint,
        EARTHING[:2]: circuit.earth_joint,
    }
    return tuple(join._replace(ohms=join.ohms + more.get(join[:2], 0.0)) for join in joins)


def as_fed(circuit: Circuit, uses: Uses, probes: Pair, value: float) -> float:
    """A reading as the supply leaves it: what is marked line has no voltage to earth if its polarity is wrong."""
    if circuit.line_dead:
        return 0.0 if uses == "prospective" else _WITHOUT_LINE.get(uses, value)
    if circuit.neutral_lost:
        return 0.0 if uses == "prospective" and probes[1] == "N0" else _WITHOUT_NEUTRAL.get(uses, value)
    if not circuit.supply_reversed:
        return value
    if uses == "prospective" and probes[1] == "E0":
        return 0.0
    return inf if uses in {*_WITHOUT_VOLTS, "origin"} else value
