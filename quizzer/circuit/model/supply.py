"""The supply of a circuit: its earthing arrangement, and the loops at the origin that go with it."""

from __future__ import annotations

from math import inf
from typing import NamedTuple, TypeVar

Item = TypeVar("Item")

VOLTS = 230.0
TOUCH_VOLTS = 50.0  # the highest touch voltage that may stand: R_A times the rated residual current, BS 7671 411.5.3
RESIDUAL_AMPS = 0.03  # of the RCD that every circuit here is given


class Arrangement(NamedTuple):
    """An earthing arrangement: the usual range of Z_e in ohms, its step, and its chances against the others."""

    name: str
    low: float
    high: float
    step: float
    chances: int


# The upper ends are what British network operators declare (0.35 and 0.8 ohms) and, for TT, the 200 ohms above which
# an electrode may not be stable by the note to BS 7671 Table 41.5: from memory. The lower ends are common practice.
ARRANGEMENTS = (
    Arrangement("TN-C-S", 0.14, 0.35, 0.01, 2),
    Arrangement("TN-S", 0.35, 0.80, 0.01, 1),
    Arrangement("TT", 20.0, 200.0, 1.0, 1),
)
# Line and neutral of any such supply, common practice. With TN-C-S they are the earth fault loop themselves.
_LINE_NEUTRAL = Arrangement("", 0.14, 0.35, 0.01, 0)


class Supply(NamedTuple):
    """Earthing arrangement, earth fault loop and line-neutral loop at the origin, both in ohms."""

    earthing: str
    z_e: float
    z_n: float

    def __str__(self) -> str:
        return f"{self.earthing}, Z_e {self.z_e:.{0 if self.z_e >= 10 else 2}f} Ω"


def supply_of(die: float, room: float = inf) -> Supply:
    """The supply that one throw of the dice gives, from its digits; in TN with no loop above `room` ohms.

    TT is never held back: there the RCD disconnects, not the overcurrent device.
    """
    able = [each for each in ARRANGEMENTS if each.low <= room or each.name == "TT"] or ARRANGEMENTS[:1]
    chosen, die = _part([each for each in able for _ in range(each.chances)], die)
    z_e, die = _part(_values(chosen, inf if chosen.name == "TT" else room), die)
    z_n, _ = (z_e, die) if chosen.name == "TN-C-S" else _part(_values(_LINE_NEUTRAL, room), die)
    return Supply(chosen.name, z_e, z_n)


def _values(of: Arrangement, room: float) -> list[float]:
    count = round((of.high - of.low) / of.step) + 1
    every = [round(of.low + n * of.step, 6) for n in range(count)]
    return [value for value in every if value <= room] or every[:1]


def _part(items: list[Item], die: float) -> tuple[Item, float]:
    """The item that a number from 0 to 1 falls on, and what is left of the number."""
    at, rest = divmod(die * len(items), 1.0)
    return items[int(at)], rest
