"""A commissioning to be played: the installation, what is wrong with it, and how its instruments read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple
from zlib import crc32

from quizzer.circuit.installation.checks import Check, Field, checks_of, fields_of
from quizzer.circuit.installation.departures import Departure, DepartureKind
from quizzer.circuit.installation.ways import Installation
from quizzer.circuit.model.fault import Uses

ORIGIN_CHECKS: tuple[Check, ...] = ("bonds", "supply", "ze", "ipf")
LIVE_CHECKS: tuple[Check, ...] = ("zs", "rcd", "function")
WORDS_OF_CHECK: dict[Check, str] = {
    "bonds": "continuity of the main bonds",
    "r1r2": "continuity of the protective conductor",
    "ring": "continuity of the ring",
    "ir": "insulation",
    "polarity": "polarity",
    "supply": "voltage and polarity of the supply",
    "ze": "external loop",
    "ipf": "prospective fault current",
    "zs": "earth fault loop",
    "rcd": "RCD",
    "function": "functional check",
}


class Cell(NamedTuple):
    """A field of the schedule of a way; way 0 is the origin."""

    way: int
    field: Field


@dataclass(frozen=True, slots=True)
class Commission:
    """What is played. `departures` are there from the beginning; `damage` comes while it is played.

    `leads` are the ohms of test leads that are not nulled, `shares` how far each kind of instrument is out,
    `limited` the way whose insulation is not tested by agreement (0: none), `seed` what its last digits go by;
    `since` is the number of its seed: kinds of departure that are drawn from a later one on are not in it.
    """

    sound: Installation
    departures: tuple[Departure, ...]
    level: int
    periodic: bool
    seed: str
    leads: float
    shares: Mapping[Uses, float]
    damage: Departure | None = None
    limited: int = 0
    since: int = 0

    @property
    def everything(self) -> tuple[Departure, ...]:
        """Every departure that there is or will be."""
        return (*self.departures, self.damage) if self.damage else self.departures

    def digit(self, what: str) -> float:
        """A share from -0.5 to 0.5 of the last digit for one reading, always the same."""
        return crc32(f"{self.seed} {what}".encode()) / 2**32 - 0.5


def cells_of(play: Commission) -> Iterator[Cell]:
    """Every field of the schedule, the origin's first."""
    for check in ORIGIN_CHECKS:
        yield from (Cell(0, field) for field in fields_of(check))
    for way in play.sound.ways:
        for check in checks_of(way):
            yield from (Cell(way.number, field) for field in fields_of(check, way))


def remedies_for(play: Commission, way: int, kind: DepartureKind, among: tuple[DepartureKind, ...]) -> tuple[str, ...]:
    """Three things that could be done about a kind, the right one among them, in an order that says nothing."""
    words = [each.remedy for each in among if each.remedy != kind.remedy]
    others = sorted(dict.fromkeys(words), key=lambda each: play.digit(f"{way} {kind.id} {each}"))[:2]
    return tuple(sorted([kind.remedy, *others], key=lambda each: play.digit(f"order {way} {kind.id} {each}")))
