"""Departures placed in an installation by dice: never two on one way, so that each can be told by its own signs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.circuit.installation import device_departures, further_departures, seen_departures, wiring_departures
from quizzer.circuit.installation.departures import Departure, DepartureKind
from quizzer.circuit.installation.ways import Installation
from quizzer.circuit.model.shapes import Dice

KINDS: tuple[DepartureKind, ...] = (
    *wiring_departures.KINDS,
    *device_departures.KINDS,
    *seen_departures.KINDS,
    *further_departures.KINDS,
)
SOUND = 0.15  # the share of installations with nothing wrong
_MOST_TRIES = 200
_LIVE = ("neutral-earth-touch", "damp")  # what another trade's screw may do to a cable


def kinds_for(whole: Installation, number: int, level: int, *, periodic: bool, seed: int) -> tuple[DepartureKind, ...]:
    """The kinds that a way (0: the origin) can have at that level."""
    able = kinds_at(level, periodic=periodic, seed=seed)
    return tuple(kind for kind in able if kind.change(whole, number, 0.0) is not None)


def kinds_of(*, seed: int) -> tuple[DepartureKind, ...]:
    """Every kind that is drawn at a seed."""
    return tuple(kind for kind in KINDS if kind.since <= seed)


def kinds_at(level: int, *, periodic: bool, seed: int) -> tuple[DepartureKind, ...]:
    """The kinds that there are at that level, in new work or in what is inspected again."""
    other = "new" if periodic else "periodic"
    return tuple(kind for kind in kinds_of(seed=seed) if kind.from_level <= level and kind.only != other)


def placed(whole: Installation, level: int, dice: Dice, *, periodic: bool, seed: int) -> tuple[Departure, ...]:
    """So many departures as the size and the level ask for, none in some."""
    if dice() < SOUND:
        return ()
    able = kinds_at(level, periodic=periodic, seed=seed)
    wanted = 1 + int(dice() * (level + len(whole.ways) // 4))
    found: list[Departure] = []
    for _ in range(_MOST_TRIES):
        if len(found) == wanted:
            break
        kind, where, throw = able[int(dice() * len(able))], dice(), dice()
        ways = [way for way in range(len(whole.ways) + 1) if kind.change(whole, way, 0.0) is not None]
        new = Departure(kind, ways[int(where * len(ways))] if ways else 0, throw)
        if ways and not _clash(new, found):
            found.append(new)
    return tuple(sorted(found, key=lambda each: each.way))


def _clash(new: Departure, found: Sequence[Departure]) -> bool:
    """Whether it meets another one on its way; of the origin, whether both are of the supply or the same."""
    if new.way == 0:
        there = [each.kind.id for each in found if each.way == 0]
        supply = {"loop-high", "breaking", "neutral-lost", "neutral-open", "electrode"}
        return new.kind.id in there or (new.kind.id in supply and bool(supply & set(there)))
    taken = {way for each in found if each.way for way in each.ways}
    return bool(taken & set(new.ways))


def damages(whole: Installation, found: Sequence[Departure], dice: Dice) -> Iterator[Departure]:
    """What another trade may do to a way that is sound so far."""
    taken = {way for each in found for way in each.ways}
    free = [way.number for way in whole.ways if way.number not in taken and way.serves in {"ring", "sockets", "heater"}]
    kinds = [kind for kind in KINDS if kind.id in _LIVE]
    if free:
        yield Departure(kinds[int(dice() * len(kinds))], free[int(dice() * len(free))], dice())
