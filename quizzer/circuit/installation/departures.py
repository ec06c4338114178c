"""What is not as it has to be in an installation: each kind with its remedy, its code, and what it changes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Literal, NamedTuple

from quizzer.circuit.installation.ways import Installation, Way
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.faults import breaks

Code = Literal["C1", "C2", "C3", "FI"]
# What putting it right changes, so that it is tested again: the wiring of the way, its device, or nothing a test reads.
Touches = Literal["wiring", "device", "nothing"]
_BETWEEN = {"neutrals", "chart", "rings-crossed", "borrowed-neutral"}  # two ways next to each other have it
Change = Callable[[Installation, int, float], Installation | None]


class DepartureKind(NamedTuple):
    """A kind of departure, whole.

    `say` names it, `remedy` is what has to be done. `today` tells that the installer has it done while the tester is
    there; else it waits, and nothing is declared meanwhile. `codes` are those that a report may give it, the first one
    first, `codes_in_tt` those in TT where they are others, and `why` is the reason. `change` makes it at a way (0:
    board, intake and bonds) by a throw of the dice, None where the way cannot have it. `from_level` is where it may be
    drawn, `only` whether in "new" work or a "periodic" inspection alone. `touches` is what putting it right changes.
    `since` is the seed from which on it is drawn.
    """

    id: str
    say: str
    remedy: str
    codes: tuple[Code, ...]
    why: str
    change: Change
    today: bool = True
    from_level: int = 1
    only: str = ""
    touches: Touches = "wiring"
    since: int = 0
    codes_in_tt: tuple[Code, ...] = ()


class Departure(NamedTuple):
    """A departure that is there: its kind, the way it is on (0: the origin), and the throw that placed it."""

    kind: DepartureKind
    way: int
    throw: float

    @property
    def key(self) -> tuple[int, str]:
        """The way and the kind, by which it is named."""
        return self.way, self.kind.id

    @property
    def ways(self) -> tuple[int, ...]:
        """The ways at which it may be named: what lies between two ways is at both."""
        return (self.way, self.way + 1) if self.kind.id in _BETWEEN else (self.way,)


def codes_of(each: Departure, whole: Installation) -> tuple[Code, ...]:
    """The codes that a report on the installation may give it, the first one first."""
    in_tt = whole.supply.earthing == "TT"
    return (each.kind.codes_in_tt if in_tt else ()) or each.kind.codes


def with_departures(sound: Installation, found: Sequence[Departure]) -> Installation:
    """The installation with these departures in it."""
    for each in found:
        changed = each.kind.change(sound, each.way, each.throw)
        if changed is None:
            raise ValueError(f"way {each.way} cannot have {each.kind.id}")
        sound = changed
    return sound


def on_way(change: Callable[[Way, float], Way | None]) -> Change:
    """A change of one way as a change of the installation."""

    def made(whole: Installation, number: int, throw: float) -> Installation | None:
        way = change(whole.way(number), throw) if number else None
        return None if way is None else whole.with_way(number, lambda _: way)

    return made


def ring_core(way: Way, throw: float, kind: str, core: str) -> Way | None:
    """A ring with one core broken or loose at one of its cables round the ring, by the throw."""
    if way.serves != "ring":
        return None
    around = [
        each
        for each in breaks.places(way.circuit)
        if each.kind == kind and f"the {core}" in each.say and "spur" not in each.say
    ]
    return way._replace(circuit=with_fault(way.circuit, around[int(throw * len(around))]))


def at_origin(change: Callable[[Installation], Installation | None]) -> Change:
    """A change of the origin."""
    return lambda whole, number, _throw: None if number else change(whole)


def bond_of(whole: Installation, to: str, ohms: float, seen: str) -> Installation:
    """The installation with one bond changed."""
    bonds = tuple(bond._replace(ohms=ohms, seen=seen) if bond.to == to else bond for bond in whole.bonds)
    return replace(whole, bonds=bonds)
