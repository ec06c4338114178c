"""Circuits drawn within real ranges: ring, radial, shower and cooker; lighting and three phases stand elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import inf
from typing import NamedTuple

from quizzer.circuit.model.network import Branch, resistances
from quizzer.circuit.model.supply import supply_of
from quizzer.circuit.model.wiring import Circuit, Device, Wire, ohms

Dice = Callable[[], float]

RING_METRES = 80.0  # of cable in a ring, what a floor of 100 m² takes; common practice
RADIAL_METRES = {2.5: 65.0, 4.0: 40.0}  # so that the loop stays under the device's limit, worked out from it
_OUT = (0.04, 1.06)  # ohms, and times: what a loop tester may be out, rounded up
_TRIPS = (21, 27)  # mA that trip an RCD of 30 mA which is sound: it may from 15 on, and makers stay off both ends
_DELAY = 150.0  # milliseconds that a main RCD with delay holds, and six times what one without takes
_LONGEST, _SHORTEST, _STEP = 11.0, 3.0, 0.5  # metres from one point to the next


Stop = tuple[str, str]  # how the nodes end there, and the name
Sizes = tuple[float, float]  # mm² of line and neutral, and of the protective conductor
_RING: Sizes = (2.5, 1.5)


class Day(NamedTuple):
    """What all circuits have alike: the temperature, the throw for the supply, sound insulation, a fault's size."""

    temperature: int
    die: float
    insulation: float
    loose: float
    damp: float
    leakage_ma: float
    rcd_ms: float


class Run(NamedTuple):
    """A cable from point to point: its sizes in mm², the longest that one length of it is, and the device before it."""

    sizes: Sizes
    longest: float
    device: Device


def pick(low: float, high: float, step: float, dice: Dice) -> float:
    """A value from low to high in even steps."""
    return round(low + step * int(dice() * (round((high - low) / step) + 1)), 6)


def day(dice: Dice) -> Day:
    """The day of the test and the supply."""
    return Day(
        temperature=int(pick(8, 26, 1, dice)),
        die=dice(),
        insulation=pick(90e6, 480e6, 10e6, dice),
        loose=pick(0.6, 4.6, 0.1, dice),
        damp=pick(0.04e6, 0.6e6, 0.02e6, dice),
        leakage_ma=pick(0.4, 2.4, 0.2, dice),
        rcd_ms=pick(16, 34, 1, dice),
    )


def ring(count: int, dice: Dice) -> Circuit:
    """A ring of 2.5/1.5 mm² flat cable with `count` sockets; from 7 on the last two are on spurs."""
    return ring_on(day(dice), count, dice)


def ring_on(today: Day, count: int, dice: Dice) -> Circuit:
    """Such a ring on a day that is known."""
    spurs = 2 if count >= 7 else 0
    around = count - spurs
    longest = _longest(RING_METRES, around + 1)
    stops = [("", "the board"), *((str(n), f"socket {n}") for n in range(1, around + 1)), ("x", "the board")]
    wires = [wire for at in range(around + 1) for wire in _cable(stops[at], stops[at + 1], _RING, longest, today, dice)]
    for number, root in zip(range(around + 1, count + 1), (2, around - 1), strict=False):
        ends = ((str(root), f"socket {root}"), (str(number), f"spur socket {number}"))
        wires += _cable(*ends, _RING, longest, today, dice)
    names = [f"socket {n}" for n in range(1, around + 1)] + [f"spur socket {n}" for n in range(around + 1, count + 1)]
    return _built("ring", f"ring of {count} sockets", names, wires, Device("B", 32), today)


def radial(count: int, dice: Dice) -> Circuit:
    """A radial of `count` sockets in 2.5/1.5 or 4/1.5 mm² flat cable."""
    today = day(dice)
    size, device = ((2.5, Device("B", 20)), (4.0, Device("B", 32)))[int(dice() * 2)]
    names = [f"socket {n}" for n in range(1, count + 1)]
    wires = _chain(names, (size, 1.5), _longest(RADIAL_METRES[size], count), today, dice)
    return _built("radial", f"radial of {count} sockets", names, wires, device, today)


def cooker(count: int, dice: Dice) -> Circuit:
    """A cooker or shower radial: a double-pole switch and the appliance."""
    del count
    today = day(dice)
    size, cpc, amps, what = ((6.0, 2.5, 32, "cooker"), (10.0, 4.0, 40, "shower"))[int(dice() * 2)]
    names = [f"the {what} switch", f"the {what} connection"]
    wires = _chain(names, (size, cpc), _LONGEST, today, dice)
    return _built("cooker", f"{what} radial", names, wires, Device("B", amps), today)


def _longest(metres: float, cables: int) -> float:
    """The longest that each of so many cables may be, in whole steps."""
    return min(_LONGEST, metres / cables // _STEP * _STEP)


def chain_on(today: Day, named: tuple[str, str], points: Sequence[str], run: Run, dice: Dice) -> Circuit:
    """A circuit on a day that is known, by its shape and title: point after point on one cable."""
    wires = _chain(points, run.sizes, run.longest, today, dice)
    return _built(*named, points, wires, run.device, today)


def _chain(names: Sequence[str], sizes: Sizes, longest: float, today: Day, dice: Dice) -> list[Wire]:
    stops = [("", "the board"), *((str(n), name) for n, name in enumerate(names, 1))]
    return [w for one, other in pairwise(stops) for w in _cable(one, other, sizes, longest, today, dice)]


def _cable(one: Stop, other: Stop, sizes: Sizes, longest: float, today: Day, dice: Dice) -> list[Wire]:
    """The three cores of a cable between two stops, each a node ending and a name."""
    metres = pick(_SHORTEST, longest, _STEP, dice)
    mm2 = {"L": sizes[0], "N": sizes[0], "E": sizes[1]}
    where = _between(one[1], other[1])
    return [
        Wire(
            f"{core}{one[0]}-{other[0]}",
            core,
            _end(core, one[0]),
            _end(core, other[0]),
            ohms(metres, size, today.temperature),
            where,
        )
        for core, size in mm2.items()
    ]


def _between(one: str, other: str) -> str:
    """Where a cable runs.

    >>> _between("socket 3", "socket 4"), _between("the board", "socket 1")
    ('between sockets 3 and 4', 'between the board and socket 1')
    """
    both = one.startswith("socket ") and other.startswith("socket ")
    return f"between sockets {one[7:]} and {other[7:]}" if both else f"between {one} and {other}"


def _end(core: str, stop: str) -> str:
    return f"{core}{stop or 0}"


def _built(shape: str, title: str, names: Sequence[str], wires: Sequence[Wire], device: Device, today: Day) -> Circuit:
    return circuit_on(today, (shape, title), names, wires, device, _room(wires, device))


def circuit_on(
    today: Day,
    named: tuple[str, str],
    points: Sequence[str],
    wires: Sequence[Wire],
    device: Device,
    room: float = inf,
) -> Circuit:
    """A sound circuit, by its shape and title, as all are on that day; its supply has a loop of at most `room` ohms."""
    return Circuit(
        *named,
        points=tuple(points),
        wires=tuple(wires),
        terminals={},
        switches=(),
        device=device,
        supply=supply_of(today.die, room),
        temperature=today.temperature,
        insulation=today.insulation,
        loose=today.loose,
        damp=today.damp,
        rcd_ms=today.rcd_ms,
        leakage_ma=today.leakage_ma,
        rcd_ma=_TRIPS[0] + int(today.insulation / 10e6) % (_TRIPS[1] - _TRIPS[0] + 1),
        main_ms=_DELAY + 6 * today.rcd_ms,
        beside_ma=beside(today) if named[0] != "three-phase" else (),
    )


def beside(today: Day) -> tuple[float, ...]:
    """What each of the circuits beside it on the same RCD leaks, in mA: by the numbers of the day, and no dice."""
    ms = int(today.rcd_ms)
    return (0.6 + ms % 5 / 10, 0.8 + ms % 7 / 10, 0.5 + ms % 3 / 10)


def _room(wires: Sequence[Wire], device: Device) -> float:
    """The highest Z_e with which the loop at the farthest point still reads under 0.8 of the device's limit."""
    ends = [wire.end[1:] for wire in wires if wire.core == "L"]
    legs = [Branch(f"{core}0", f"{core}x", 0.0) for core in "LE"]  # a radial has no such end: nothing is joined
    both = [resistances([*wires, *legs], [(f"{core}0", f"{core}{end}") for end in ends]) for core in "LE"]
    return room_for(max(line + earth for line, earth in zip(*both, strict=True)), device)


def room_for(ohms_of_circuit: float, device: Device) -> float:
    """What the circuit leaves of 0.8 of the device's limit, less what a loop tester may be out."""
    return (0.8 * device.limit - _OUT[0]) / _OUT[1] - ohms_of_circuit
