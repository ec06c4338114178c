"""An installation as frozen values: the ways of one board, its bonds, and its supply."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from quizzer.circuit.model.supply import Supply
from quizzer.circuit.model.wiring import Circuit

Size = Literal["flat", "house", "workshop"]
# What a way is: how it is tested and what can be wrong with it goes by this.
Serves = Literal[
    "ring",
    "sockets",
    "lights",
    "two-way",
    "shower",
    "cooker",
    "heater",
    "outdoor",
    "alarms",
    "motor",
    "car",
    "solar",
]
NO_RCD = ""  # the type of an RCD that is not there
NOT_BONDED = "neither clamp nor conductor to be found"
BLANKS_IN, BLANK_OUT = "every blank is in place", "a blank is missing: a finger reaches a live bar"
BLANK_FOR_NOW = "a blank is missing, made safe for now"


class CableSizes(NamedTuple):
    """The sizes of a cable's live conductors and of its protective conductor, in mm²."""

    live: float
    cpc: float

    def __str__(self) -> str:
        return f"{self.live:g}/{self.cpc:g} mm²"


class Way(NamedTuple):
    """One way of the board: its circuit as it is wired, and what an eye sees of it.

    `planned` is the circuit as it was designed. `rcd` is the type of the RCD that is fitted, "" for none, and
    `rcd_planned` that of the design. `volts` are those of its insulation test. `neutral` is the way in whose device its
    neutral is, `feeds` the way whose points it feeds. `button` tells whether the RCD's test button works. `recorded` is
    the cable by the installer's record. `dial` is how many times the plate's current a motor's overload is set to, and
    `ohms` the highest R1+R2 as it was designed, at the temperature of the day. `legs` is the ring in whose device its
    second line leg is, `borrows` the way whose neutral one of its lights has (0: none). `detects` tells whether a
    charging point detects 6 mA of direct current, `both_ways` whether the device may be fed from either side.
    """

    number: int
    serves: Serves
    name: str
    planned: Circuit
    circuit: Circuit
    cable_planned: CableSizes
    cable: CableSizes
    recorded: CableSizes
    rcd_planned: str
    rcd: str
    volts: int
    neutral: int
    feeds: int
    sleeved: bool = True
    label: bool = True
    button: bool = True
    dial: float = 1.0
    ohms: float = 0.0
    legs: int = 0
    borrows: int = 0
    detects: bool = True
    both_ways: bool = True


class Bond(NamedTuple):
    """A main protective bonding conductor: what it bonds, and its ohms from clamp to main earthing terminal."""

    to: str
    ohms: float
    seen: str = "clamp tight and labelled"


@dataclass(frozen=True, slots=True)
class Installation:
    """The ways of a board and what feeds it. `declared` is what the network operator says of the earth loop in ohms.

    `neutral_lost` tells that the supply's neutral is open before the main switch.

    `breaking` is the breaking capacity of the devices in amperes; `parallel` the ohms of steelwork and pipes that lie
    beside the earthing conductor while it is connected.
    """

    size: Size
    title: str
    ways: tuple[Way, ...]
    bonds: tuple[Bond, ...]
    supply: Supply
    declared: float
    three_phase: bool
    temperature: int
    breaking: float = 6000.0
    parallel: float = 9.0
    blanks: str = BLANKS_IN
    chart: bool = True
    notice: bool = True
    neutral_lost: bool = False

    def way(self, number: int) -> Way:
        """The way of that number."""
        return self.ways[number - 1]

    def with_way(self, number: int, change: Callable[[Way], Way]) -> Installation:
        """The installation with one way changed."""
        return replace(self, ways=tuple(change(way) if way.number == number else way for way in self.ways))

    def with_supply(self, supply: Supply) -> Installation:
        """The installation on another supply, each circuit of it too."""
        ways = tuple(way._replace(circuit=replace(way.circuit, supply=supply)) for way in self.ways)
        return replace(self, ways=ways, supply=supply)
