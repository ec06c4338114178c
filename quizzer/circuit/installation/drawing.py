"""An installation with nothing wrong, drawn by dice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from quizzer.circuit.installation.checks import farthest
from quizzer.circuit.installation.ways import Bond, CableSizes, Installation, Serves, Size, Way
from quizzer.circuit.model import lighting, phases, shapes
from quizzer.circuit.model.shapes import Day, Dice, Run, day, pick
from quizzer.circuit.model.supply import ARRANGEMENTS, Arrangement, Supply
from quizzer.circuit.model.wiring import Circuit, Device
from quizzer.circuit.testing.schedule import LOWERED
from quizzer.circuit.testing.tests import SCHEDULED

Maker = Callable[[Day, Dice], Circuit]
# What a loop tester on its no-trip range may read high, and be out beside that; then a tenth to spare: no reading of a
# sound circuit lies where its accuracy would decide.
_SPARE = 0.14
_OUT = 1.08


class WayPlan(NamedTuple):
    """How a way of one kind is drawn: its circuit, its cable, the type of its RCD ("" where TN needs none)."""

    make: Maker
    cable: CableSizes
    rcd: str = "A"
    volts: int = SCHEDULED


def _chain(name: str, point: str, count: int, run: Run) -> Maker:
    points = [point] if count == 1 else [f"{point} {n}" for n in range(1, count + 1)]
    return lambda today, dice: shapes.chain_on(today, ("radial", name), points, run, dice)


def _radial(name: str, point: str, count: int, cable: CableSizes, longest: float, amps: int) -> WayPlan:
    return WayPlan(_chain(name, point, count, Run((cable.live, cable.cpc), longest, Device("B", amps))), cable)


_RING, _LIGHT = CableSizes(2.5, 1.5), CableSizes(1.5, 1.0)
PLANS: dict[Serves, WayPlan] = {
    "ring": WayPlan(lambda today, dice: shapes.ring_on(today, int(pick(4, 8, 1, dice)), dice), _RING),
    "sockets": _radial("radial of sockets", "socket", 4, _RING, 8.0, 20),
    "lights": WayPlan(lambda today, dice: lighting.one_way_on(today, int(pick(3, 5, 1, dice)), dice), _LIGHT),
    "two-way": WayPlan(lighting.two_way_on, _LIGHT),
    "shower": _radial("shower radial", "the shower", 1, CableSizes(10.0, 4.0), 11.0, 40),
    "cooker": _radial("cooker radial", "the cooker", 1, CableSizes(6.0, 2.5), 11.0, 32),
    "heater": _radial("water heater radial", "the heater", 1, _RING, 11.0, 16),
    "outdoor": _radial("outdoor sockets", "outdoor socket", 2, _RING, 11.0, 16),
    "alarms": _radial("smoke alarms", "alarm", 3, _LIGHT, 8.0, 6)._replace(volts=LOWERED),
    "motor": WayPlan(phases.board_on, CableSizes(4.0, 4.0), ""),
    "car": _radial("car charging point", "the charging point", 1, CableSizes(6.0, 2.5), 11.0, 32),
    "solar": _radial("solar inverter", "the inverter", 1, CableSizes(4.0, 1.5), 11.0, 16),
}
_NAMES: dict[Serves, tuple[str, ...]] = {
    "ring": ("Sockets, ground floor", "Sockets, first floor"),
    "sockets": ("Sockets, kitchen", "Sockets, bench", "Sockets, store"),
    "lights": ("Lights, ground floor", "Lights, first floor"),
    "two-way": ("Landing light",),
    "shower": ("Shower",),
    "cooker": ("Cooker",),
    "heater": ("Water heater",),
    "outdoor": ("Outdoor sockets",),
    "alarms": ("Smoke alarms",),
    "motor": ("Extractor motor",),
    "car": ("Car charging",),
    "solar": ("Solar inverter",),
}
_ALWAYS: dict[Size, tuple[Serves, ...]] = {
    "flat": ("ring", "lights", "cooker", "shower"),
    "house": ("ring", "ring", "lights", "two-way", "cooker", "shower", "outdoor"),
    "workshop": ("ring", "sockets", "sockets", "lights", "lights", "two-way", "motor", "outdoor", "alarms", "heater"),
}
_MORE: dict[Size, tuple[tuple[Serves, int], ...]] = {  # with the level from which it may come
    "flat": (("alarms", 1), ("heater", 2)),
    "house": (("alarms", 1), ("lights", 1), ("car", 2), ("solar", 3)),
    "workshop": (("ring", 1), ("sockets", 1), ("car", 2), ("solar", 3)),
}
SIZES = tuple(_ALWAYS)
_TITLES: dict[Size, str] = {
    "flat": "Flat on the second floor",
    "house": "Detached house",
    "workshop": "Joinery workshop",
}


def drawn(size: Size, level: int, dice: Dice) -> Installation:
    """A sound installation of that size; what it has beside the usual goes by the level."""
    more = tuple(serves for serves, since in _MORE[size] if since <= level and dice() < 0.7)
    today, counts = day(dice), dict.fromkeys(PLANS, 0)
    ways = []
    for number, serves in enumerate((*_ALWAYS[size], *more), 1):
        made = _way(number, serves, counts[serves], today, dice)
        ways.append(made._replace(name=made.name.partition(",")[0]) if size == "flat" else made)
        counts[serves] += 1
    room = min(_room(way) for way in ways)
    supply = _supply(room, size, dice)
    bonds = tuple(Bond(to, pick(0.01, 0.04, 0.005, dice)) for to in ("water", "gas"))
    three = size == "workshop"
    declared = {"TN-C-S": 0.35, "TN-S": 0.8}.get(supply.earthing, 200.0)
    found = Installation(size, _TITLES[size], tuple(ways), bonds, supply, declared, three, today.temperature)
    if supply.earthing == "TT":  # every final circuit on an RCD: no overcurrent device would disconnect
        found = replace(found, ways=tuple(way._replace(rcd="A", rcd_planned="A") for way in found.ways))
    found = found.with_supply(supply)
    return replace(found, ways=tuple(way._replace(planned=way.circuit) for way in found.ways))


def _way(number: int, serves: Serves, at: int, today: Day, dice: Dice) -> Way:
    plan, names = PLANS[serves], _NAMES[serves]
    own = day(dice)._replace(temperature=today.temperature)
    circuit = plan.make(own, dice)
    name = names[at] if at < len(names) else f"{names[0]} {at + 1}"
    cable = plan.cable
    made = Way(
        number,
        serves,
        name,
        circuit,
        circuit,
        cable,
        cable,
        cable,
        plan.rcd,
        plan.rcd,
        plan.volts,
        number,
        number,
    )
    return made._replace(ohms=farthest(made))


def _room(way: Way) -> float:
    """The highest earth loop at the origin with which this way's loop reads well under 0.8 of its limit."""
    return (0.8 * way.circuit.device.table_limit - _SPARE) / _OUT - way.ohms


def _supply(room: float, size: Size, dice: Dice) -> Supply:
    """A supply whose loop leaves room to the worst of the circuits; a workshop has a combined earth and neutral."""
    able = [each for each in ARRANGEMENTS if each.low <= room or each.name == "TT"]
    if size != "house":
        able = [each for each in able if each.name != "TT"] or list(ARRANGEMENTS[:1])
    chosen = able[int(dice() * len(able))]
    z_e = _within(chosen, room, dice)
    return Supply(chosen.name, z_e, z_e if chosen.name == "TN-C-S" else pick(0.14, 0.30, 0.01, dice))


def _within(of: Arrangement, room: float, dice: Dice) -> float:
    high = of.high if of.name == "TT" else max(of.low, min(of.high, room))
    return pick(of.low, of.low + (high - of.low) // of.step * of.step, of.step, dice)
