"""What is tested on each way and at the origin, what it gives in truth, and what each value is held to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import inf
from typing import Literal

from quizzer.circuit.installation.earthing import loops, with_beside
from quizzer.circuit.installation.ways import Installation, Way
from quizzer.circuit.model.edits import Clamped, Joined
from quizzer.circuit.model.fault import Uses
from quizzer.circuit.model.network import Branch
from quizzer.circuit.model.wiring import LIGHTS, PER_KELVIN, Circuit
from quizzer.circuit.testing.instrument import Instrument
from quizzer.circuit.testing.instruments import INSTRUMENTS, insulation_at
from quizzer.circuit.testing.on_site import on_site
from quizzer.circuit.testing.schedule import insulation, readings, schedule
from quizzer.circuit.testing.tests import SCHEDULED, Test, TestSetting

Check = Literal["ring", "r1r2", "ir", "polarity", "zs", "rcd", "function", "bonds", "supply", "ze", "ipf"]
Field = Literal[
    "r1",
    "rn",
    "r2",
    "R1+R2",
    "L-N",
    "L-E",
    "polarity",
    "Zs",
    "RCD",
    "button",
    "function",
    "water",
    "gas",
    "volts",
    "Ze",
    "Ipf",
]
DEAD: tuple[Check, ...] = ("bonds", "r1r2", "ring", "ir", "polarity")
ORIGIN: tuple[Check, ...] = ("bonds", "supply", "ze", "ipf")
TICKS: tuple[Field, ...] = ("polarity", "button", "function", "volts")
_FIELDS: dict[Check, tuple[Field, ...]] = {
    "ring": ("r1", "rn", "r2"),
    "r1r2": ("R1+R2",),
    "ir": ("L-N", "L-E"),
    "polarity": ("polarity",),
    "zs": ("Zs",),
    "rcd": ("RCD", "button"),
    "function": ("function",),
    "bonds": ("water", "gas"),
    "supply": ("volts",),
    "ze": ("Ze",),
    "ipf": ("Ipf",),
}
_USES: dict[Check, Uses] = {
    "ring": "continuity",
    "r1r2": "continuity",
    "ir": "insulation",
    "zs": "loop",
    "rcd": "rcd",
    "bonds": "continuity",
    "ze": "loop",
    "ipf": "prospective",
}
_ELECTRONICS, _LAMP = 0.35e6, 95.0  # ohms at 500 V of alarms that stay connected; of loads that were left in
TRIPS_AT_HALF = 9.0  # mA of standing leakage with which, and half its rated current, an RCD may trip


def checks_of(way: Way) -> tuple[Check, ...]:
    """The tests of a way, in the order in which they are done."""
    ring: tuple[Check, ...] = ("ring",) if way.serves == "ring" else ()
    rcd: tuple[Check, ...] = ("rcd",) if way.rcd_planned else ()
    return ("r1r2", *ring, "ir", "polarity", "zs", *rcd, "function")


def fields_of(check: Check, way: Way | None = None) -> tuple[Field, ...]:
    """The fields of the schedule that a test fills; a motor has no insulation between its lines to be read."""
    return ("L-E",) if check == "ir" and way is not None and way.serves == "motor" else _FIELDS[check]


def instrument_of(check: Check, volts: int = 500) -> Instrument | None:
    """The instrument of a test that gives figures."""
    uses = _USES.get(check)
    return None if uses is None else insulation_at(volts) if uses == "insulation" else INSTRUMENTS[uses]


def check_of(field: Field) -> Check:
    """The test that fills a field."""
    return next(check for check, fields in _FIELDS.items() if field in fields)


def uses_of(check: Check) -> Uses:
    """The kind of instrument of a test that gives figures."""
    return _USES[check]


def single_tests(way: Way, check: Check, volts: int, beside: float = inf) -> tuple[Test, ...]:
    """The single tests of which one is made, each read at its own place.

    `beside` are the ohms beside the earthing conductor of what is live, which loops are read with.
    """
    if check == "zs":
        return tuple(with_beside(test, way.circuit.supply, beside) for test in _loops(way))
    if way.serves == "motor":
        return _of_motor(way.planned, check)
    if check == "ir":
        return tuple(insulation(way.planned, volts))
    return _continuity(way.planned, ("ends-", "LN-") if check == "ring" else ("LE-", "plate"))


def _loops(way: Way) -> tuple[Test, ...]:
    """The loop at each point, in the order of the points."""
    on_supply = replace(way.planned, supply=way.circuit.supply)
    if way.serves == "motor":
        return _of_motor(on_supply, "zs")
    every = (test for test in (*schedule(on_supply), *on_site(on_supply)) if test.uses == "loop")
    return tuple(sorted(every, key=lambda test: on_supply.points.index(test.place)))


def leg_tests(way: Way, tests: Sequence[Test], values: Sequence[float]) -> tuple[Test, ...]:
    """Where a core of a ring is open end to end: its second leg tried against those of the next ring."""
    found = dict(zip((test.id for test in tests), values, strict=True))
    ids = {f"other-ring-{core}" for core in "LN" if found[f"ends-{core}"] == inf}
    return tuple(test for test in schedule(way.planned) if test.id in ids)


def _continuity(circuit: Circuit, starts: tuple[str, ...]) -> tuple[Test, ...]:
    """Its tests of those ids, without settings of switches in which a lamp is dark."""
    tests = tuple(test for test in schedule(circuit) if test.id.startswith(starts))
    if circuit.shape not in LIGHTS:
        return tests
    return tuple(test for test, ohms in zip(tests, readings(circuit, tests), strict=True) if ohms < inf)


def _of_motor(circuit: Circuit, check: Check) -> tuple[Test, ...]:
    if check == "r1r2":
        linked = TestSetting((Branch("L1", "E", 0.0),))
        group = "line and protective conductor linked at the board"
        return (Test("LE-1", group, "the motor", "continuity", linked, ("U", "ME")),)
    tests = (*schedule(circuit), *on_site(circuit))
    starts = {"ir": "ir-", "polarity": "line-", "zs": "loop", "function": "sequence"}[check]
    return tuple(test for test in tests if test.id.startswith(starts))


def wired(way: Way, *, loads_out: bool) -> Circuit:
    """The circuit as it is for a test: electronics that stay connected, and loads that were not taken out."""
    circuit, k = way.circuit, len(way.circuit.points)
    ends = ("A1", "B1") if circuit.shape in LIGHTS else (f"L{k}", f"N{k}")
    if way.serves == "alarms":
        circuit = Clamped(*ends).made(circuit, _ELECTRONICS)
    if not loads_out and way.serves != "motor":
        circuit = Joined(*ends).made(circuit, _LAMP)
    return circuit


def values_of(way: Way, check: Check, tests: Sequence[Test], *, loads_out: bool = True) -> list[float]:
    """What each test gives in truth, in SI."""
    circuit = wired(way, loads_out=loads_out) if check == "ir" else way.circuit
    return readings(circuit, tests)


def farthest(way: Way) -> float:
    """The highest R1+R2 of a way by its planned circuit, in ohms at the temperature of the day."""
    return max(readings(way.planned, single_tests(way, "r1r2", SCHEDULED)))


def in_fields(way: Way, check: Check, tests: Sequence[Test], values: Sequence[float]) -> dict[Field, float]:
    """What belongs in the fields: the highest R1+R2 and loop, the lowest insulation, the ring end to end."""
    by_id = {test.id: value for test, value in zip(tests, values, strict=True)}
    if check == "ring":
        return {"r1": by_id["ends-L"], "rn": by_id["ends-N"], "r2": by_id["ends-E"]}
    if check == "ir" and way.serves != "motor":
        pairs = {test.place: value for test, value in zip(tests, values, strict=True)}
        return {"L-N": pairs["line to neutral"], "L-E": min(pairs["line to earth"], pairs["neutral to earth"])}
    if check == "ir":
        return {"L-E": min(values)}
    (field,) = fields_of(check, way)
    return {field: max(values)}


def design_ohms(way: Way) -> float:
    """R1+R2 by design, in ohms at 20 °C."""
    return way.ohms / (1 + PER_KELVIN * (way.planned.temperature - 20))


def origin_values(whole: Installation, *, earth_off: bool) -> dict[Field, float]:
    """What is true at the origin: bonds and loops in ohms, the higher prospective current in amperes.

    With the earthing conductor on, what lies beside it is in the loop too. On three phases the current is taken as
    twice the one of a line, as is usual.
    """
    bonds: dict[Field, float] = {("water" if bond.to == "water" else "gas"): bond.ohms for bond in whole.bonds}
    to_earth, to_neutral = loops(whole, earth_off=earth_off)
    times = 2 if whole.three_phase else 1
    return {**bonds, "Ze": to_earth, "Ipf": times * 230 / min(to_earth, to_neutral)}
