"""Circuits drawn within real ranges: ring, radial, shower and cooker; lighting and three phases stand elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

from quizzer.circuit.wiring import Circuit, Device, Wire, ohms

Dice = Callable[[], float]


class Day(NamedTuple):
    """What all circuits have alike: the temperature, supply, sound insulation, and the size a fault would have."""

    temperature: int
    z_e: float
    insulation: float
    loose: float
    damp: float
    leakage_ma: float
    rcd_ms: float


def pick(low: float, high: float, step: float, dice: Dice) -> float:
    """A value from low to high in even steps."""
    return round(low + step * int(dice() * (round((high - low) / step) + 1)), 6)


def day(dice: Dice) -> Day:
    """The day of the test and the supply."""
    return Day(
        temperature=int(pick(8, 26, 1, dice)),
        z_e=pick(0.14, 0.34, 0.01, dice),
        insulation=pick(90e6, 480e6, 10e6, dice),
        loose=pick(0.6, 4.6, 0.1, dice),
        damp=pick(0.04e6, 0.6e6, 0.02e6, dice),
        leakage_ma=pick(0.4, 2.4, 0.2, dice),
        rcd_ms=pick(16, 34, 1, dice),
    )


def ring(count: int, dice: Dice) -> Circuit:
    """A ring of 2.5/1.5 mm² flat cable with `count` sockets; from 7 on the last two are on spurs."""
    today, spurs = day(dice), 2 if count >= 7 else 0
    around = count - spurs
    stops = [("", "the board"), *((str(n), f"socket {n}") for n in range(1, around + 1)), ("x", "the board")]
    wires = [wire for at in range(around + 1) for wire in _cable(stops[at], stops[at + 1], 2.5, 1.5, today, dice)]
    for number, root in zip(range(around + 1, count + 1), (2, around - 1), strict=False):
        wires += _cable((str(root), f"socket {root}"), (str(number), f"spur socket {number}"), 2.5, 1.5, today, dice)
    names = [f"socket {n}" for n in range(1, around + 1)] + [f"spur socket {n}" for n in range(around + 1, count + 1)]
    return _built("ring", f"ring of {count} sockets", names, wires, Device("B", 32), today)


def radial(count: int, dice: Dice) -> Circuit:
    """A radial of `count` sockets in 2.5/1.5 or 4/1.5 mm² flat cable."""
    today = day(dice)
    size, device = ((2.5, Device("B", 20)), (4.0, Device("B", 32)))[int(dice() * 2)]
    names = [f"socket {n}" for n in range(1, count + 1)]
    return _built("radial", f"radial of {count} sockets", names, _chain(names, size, 1.5, today, dice), device, today)


def cooker(count: int, dice: Dice) -> Circuit:
    """A cooker or shower radial: a double-pole switch and the appliance."""
    del count
    today = day(dice)
    size, cpc, amps, what = ((6.0, 2.5, 32, "cooker"), (10.0, 4.0, 40, "shower"))[int(dice() * 2)]
    names = [f"the {what} switch", f"the {what} connection"]
    wires = _chain(names, size, cpc, today, dice)
    return _built("cooker", f"{what} radial", names, wires, Device("B", amps), today)


def _chain(names: Sequence[str], size: float, cpc: float, today: Day, dice: Dice) -> list[Wire]:
    stops = [("", "the board"), *((str(n), name) for n, name in enumerate(names, 1))]
    return [w for one, other in pairwise(stops) for w in _cable(one, other, size, cpc, today, dice)]


def _cable(one: tuple[str, str], other: tuple[str, str], size: float, cpc: float, today: Day, dice: Dice) -> list[Wire]:
    """The three cores of a cable between two stops, each a node ending and a name."""
    metres = pick(3, 11, 0.5, dice)
    sizes = {"L": size, "N": size, "E": cpc}
    where = _between(one[1], other[1])
    return [
        Wire(f"{core}{one[0]}-{other[0]}", core, _end(core, one[0]), _end(core, other[0]),
             ohms(metres, mm2, today.temperature), where)
        for core, mm2 in sizes.items()
    ]  # fmt: skip


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
    return Circuit(
        shape=shape, title=title, points=tuple(names), wires=tuple(wires), terminals={}, switches=(), device=device,
        z_e=today.z_e, temperature=today.temperature, insulation=today.insulation, loose=today.loose, damp=today.damp,
        rcd_ms=today.rcd_ms, leakage_ma=today.leakage_ma,
    )  # fmt: skip
