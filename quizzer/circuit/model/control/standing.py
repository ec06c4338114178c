"""How the contactors of a starter stand after something was done to it, and the voltages in its control circuit.

A coil is what it is to the supply: some 770 ohms while its contactor is open, ten times that when it has closed (0.3 A
and 30 mA at 230 V). It closes the contactor from 85 % of its rated voltage on and lets go under half of it: makers'
figures for the first, memory for the rest. Between 45 and 85 % an open one only buzzes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from math import inf, sqrt
from typing import NamedTuple

from quizzer.circuit.model.control.starters import COIL_OHMS, TIMER_OHMS
from quizzer.circuit.model.network import Branch, Pair, potentials
from quizzer.circuit.model.supply import VOLTS
from quizzer.circuit.model.wiring import Circuit, Switch, Wire

LET_GO, WAIT, DIP, TRIP = "-", "wait", "dip", "trip"  # what can be done beside pressing a button
METER = 1e6  # ohms of a voltmeter of high impedance
_OPEN, _SEALED = 230 / 0.3 / 600, 230 / 0.03 / 600  # times the d.c. ohms of a coil: its impedance
_CLOSES, _HOLDS, _BUZZES = 0.85, 0.5, 0.45  # of the rated voltage
_CONTACT = 0.05  # ohms of a closed contact
_FIXED: Mapping[str, complex] = {"L": VOLTS, "N": 0.0}
_EARTHED: Mapping[str, complex] = {**_FIXED, "E0": 0.0}  # the supply's neutral is earthed

Names = frozenset[str]
_NONE: Names = frozenset()


class StarterStanding(NamedTuple):
    """How it stands: the devices that have pulled in, those that buzz, what is pressed, the timers that have run out.

    `latched` are the switches that stay where they were put, `tripped` says that the overload relay has tripped,
    `dark` that the RCD before it has, so that nothing is fed any more.
    `through` are the sets of devices it goes through without end where it buzzes by its own contact; else one alone.
    """

    inside: Names = _NONE
    buzzing: Names = _NONE
    pressed: str = ""
    timed: Names = _NONE
    through: tuple[Names, ...] = (_NONE,)
    latched: Names = _NONE
    tripped: bool = False
    dark: bool = False


class _Wired(NamedTuple):
    wires: tuple[Wire, ...]
    switches: tuple[Switch, ...]
    leaks: tuple[Branch, ...]
    fixed: tuple[tuple[str, complex], ...]
    resets_itself: bool
    rcd_amps: float

    def potentials(self, branches: Sequence[Branch]) -> dict[str, complex]:
        """The potential of every node that the supply reaches."""
        return potentials(branches, dict(self.fixed))

    def branches(self, stand: StarterStanding, inside: Names) -> list[Branch]:
        """Every conductor, closed contact and coil, with these devices in."""
        closed = [Branch(*pair, _CONTACT) for s in self.switches for pair in s.ways[_moved(s, stand, inside)]]
        return [*closed, *self.leaks, *(_as_fed(wire, inside) for wire in self.wires if wire.role != "winding")]


def standing(circuit: Circuit, doing: tuple[str, ...]) -> StarterStanding:
    """How it stands after a row of things done: a button pressed, let go, the set time waited for, the supply lost."""
    return _after(_wired(circuit), doing)


def volts(circuit: Circuit, doing: tuple[str, ...], pair: Pair) -> float:
    """The voltage that a voltmeter of high impedance shows; of what comes and goes without end, the mean."""
    return _across(_wired(circuit), doing, pair)


def moved(circuit: Circuit, stand: StarterStanding) -> tuple[int, ...]:
    """Where each switch stands: 1 moved, 0 at rest."""
    return tuple(_moved(switch, stand, stand.inside) for switch in circuit.switches)


def stuck(switch: Switch) -> bool:
    """Whether it stays moved whatever is done."""
    return switch.ways[0] == switch.ways[1]


def _wired(circuit: Circuit) -> _Wired:
    """What can decide: the cable to the motor cannot."""
    wires = tuple(wire for wire in circuit.wires if wire.role in {"control", "coil"})
    fixed = tuple((_EARTHED if circuit.control_earthed else _FIXED).items())
    itself = circuit.machine is not None and circuit.machine.resets_itself
    behind = circuit.has_rcd and circuit.control_earthed  # an RCD does not see beyond a transformer
    leaks = _through_electrode(circuit) if behind else circuit.leaks
    return _Wired(wires, circuit.switches, leaks, fixed, itself, circuit.rcd_ma / 1000 if behind else inf)


def _through_electrode(circuit: Circuit) -> tuple[Branch, ...]:
    """What touches earth, with the loop of the supply in series."""
    return tuple(
        leak._replace(ohms=leak.ohms + circuit.supply.z_e) if "E0" in leak[:2] else leak for leak in circuit.leaks
    )


@lru_cache(maxsize=4096)
def _across(wired: _Wired, doing: tuple[str, ...], pair: Pair) -> float:
    stand = _after(wired, doing)
    if stand.dark:
        return 0.0
    found = [_read(wired, wired.branches(stand, inside), pair) for inside in stand.through]
    return sum(found) / len(found)


def _read(wired: _Wired, branches: list[Branch], pair: Pair) -> float:
    at = wired.potentials([*branches, Branch(*pair, METER)])
    return abs(at.get(pair[0], 0.0) - at.get(pair[1], 0.0))


@lru_cache(maxsize=4096)
def _after(wired: _Wired, doing: tuple[str, ...]) -> StarterStanding:
    if not doing:
        return _settled(wired, StarterStanding())
    before, done = _after(wired, doing[:-1]), doing[-1]
    if before.dark:
        return before
    before = before._replace(tripped=before.tripped and not wired.resets_itself)  # it has cooled since
    if done == TRIP:
        return _settled(wired, before._replace(pressed="", tripped=True))
    if done == WAIT:
        return _settled(wired, before._replace(timed=before.inside))
    if done == DIP:
        return _settled(wired, StarterStanding(latched=before.latched, tripped=before.tripped))
    stays = {switch.name for switch in wired.switches if switch.latches} & {done}
    return _settled(wired, before._replace(pressed="" if done == LET_GO else done, latched=before.latched | stays))


def _settled(wired: _Wired, stand: StarterStanding) -> StarterStanding:
    """How it stands once nothing moves any more, or what it goes through without end."""
    inside, seen, buzz = stand.inside, list[Names](), _NONE
    while inside not in seen:
        if _trips(wired, stand, inside):
            return StarterStanding(latched=stand.latched, tripped=stand.tripped, dark=True)
        seen.append(inside)
        inside, buzz = _pulled(wired, stand, inside)
    through = tuple(seen[seen.index(inside) :])
    steady = frozenset.intersection(*through)
    restless = frozenset.union(*through) - steady
    return stand._replace(inside=steady, buzzing=restless or buzz, timed=stand.timed & steady, through=through)


def _trips(wired: _Wired, stand: StarterStanding, inside: Names) -> bool:
    """Whether more flows to earth than the RCD lets pass."""
    if wired.rcd_amps == inf or not wired.leaks:
        return False
    at = wired.potentials(wired.branches(stand, inside))
    amps = (abs(at.get(one, 0.0) - at.get(other, 0.0)) / ohms for one, other, ohms in wired.leaks if ohms < inf)
    return sum(amps) > wired.rcd_amps


def _pulled(wired: _Wired, stand: StarterStanding, inside: Names) -> tuple[Names, Names]:
    """The devices that are in a moment later, and those that buzz."""
    at = wired.potentials(wired.branches(stand, inside))
    share = {wire.id: _share(wire, at) for wire in wired.wires if wire.role == "coil"}
    held = {name for name, part in share.items() if part >= (_HOLDS if name in inside else _CLOSES)}
    return frozenset(held), frozenset(name for name, part in share.items() if part >= _BUZZES and name not in held)


def _share(coil: Wire, at: Mapping[str, complex]) -> float:
    """The voltage across a coil as a share of what it is made for: ohms go with the square of that."""
    usual = TIMER_OHMS if coil.id.startswith("KT") else COIL_OHMS
    across = abs(at.get(coil.start, 0.0) - at.get(coil.end, 0.0))
    return across / (VOLTS * sqrt(coil.ohms / usual)) if coil.ohms < inf else 0.0


def _as_fed(wire: Wire, inside: Names) -> Branch:
    if wire.role != "coil":
        return Branch(wire.start, wire.end, wire.ohms)
    return Branch(wire.start, wire.end, wire.ohms * (_SEALED if wire.id in inside else _OPEN))


def _moved(switch: Switch, stand: StarterStanding, inside: Names) -> int:
    if switch.name.startswith("KT"):
        return int(switch.name in inside and switch.name in stand.timed)
    tripped = stand.tripped and switch.name == "F2"
    return int(tripped or switch.name == stand.pressed or switch.name in inside | stand.latched)


def closed_pairs(switches: Sequence[Switch], positions: Sequence[int]) -> list[Pair]:
    """The pairs of nodes that contacts join in these positions."""
    return [pair for switch, at in zip(switches, positions, strict=True) for pair in switch.ways[at]]
