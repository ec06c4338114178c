"""A commissioning to be played: the installation and what is wrong with it, by size, level and seed."""

from __future__ import annotations

from random import Random

from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.installation.drawing import SIZES, drawn
from quizzer.circuit.installation.placing import damages, placed
from quizzer.circuit.installation.ways import Size
from quizzer.circuit.model.fault import Uses
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.testing.instruments import INSTRUMENTS
from quizzer.errors import UsageError

_DAMAGED, _LIMITED = 0.6, 0.7  # shares of plays: with another trade's damage at level 3, with an agreed limitation
_USES: tuple[Uses, ...] = ("continuity", "insulation", "loop", "rcd", "prospective")


def commissioned(size: str, level: int, seed: int, *, periodic: bool) -> Commission:
    """The commissioning of a size, a level and a seed. Raises UsageError for an unknown size."""
    found = next((each for each in SIZES if each == size), None)
    if found is None:
        raise UsageError(f"no size {size!r}", mend="write one of " + ", ".join(SIZES))
    words = f"commission {size} {level} {periodic}#{seed}"
    return _drawn(found, level, words, periodic=periodic, number=seed)


def _drawn(size: Size, level: int, seed: str, *, periodic: bool, number: int) -> Commission:
    dice = Random(seed).random
    sound = drawn(size, level, dice)
    departures = placed(sound, level, dice, periodic=periodic, seed=number)
    damaged = not periodic and level == 3 and dice() < _DAMAGED
    damage = next(damages(sound, departures, dice), None) if damaged else None
    alarms = next((way.number for way in sound.ways if way.serves == "alarms"), 0)
    limited = alarms if periodic and dice() < _LIMITED else 0
    if any(each.way == limited and each.kind.touches == "wiring" for each in departures):
        limited = 0  # what is wrong there could not be found
    leads = round(0.06 + 0.04 * dice(), 2)
    return Commission(sound, departures, level, periodic, seed, leads, _shares(dice), damage, limited, number)


def _shares(dice: Dice) -> dict[Uses, float]:
    return {uses: (2 * dice() - 1) * INSTRUMENTS[uses].share * 0.5 for uses in _USES}
