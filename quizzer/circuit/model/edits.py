"""What faults change in a circuit: each edit is a small value that says where, and makes the change."""

from __future__ import annotations

from collections.abc import Callable, Container
from itertools import combinations
from math import inf
from typing import NamedTuple, Protocol

from quizzer.circuit.model.network import Branch
from quizzer.circuit.model.wiring import QUIET, Circuit, Clamp, Device, Wire, with_fields, with_wires

_EARTH_OF_A_BRIDGE = 5 / 3  # times the ohms of its line: 2.5/1.5 mm² cable


class Edit(Protocol):
    """A change at one place."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit changed; `size` in ohms, ms or mA where the change has one."""


class AddedOhms(NamedTuple):
    """A wire with more resistance; infinite where it is broken."""

    wire: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with so many ohms more in the wire."""
        return _wires(circuit, (self.wire,), lambda wire: wire._replace(ohms=wire.ohms + size))


class Parted(NamedTuple):
    """Wires that are broken together."""

    wires: tuple[str, ...]

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with each of the wires open."""
        del size
        return _wires(circuit, self.wires, lambda wire: wire._replace(ohms=inf))


class Exchanged(NamedTuple):
    """Two conductors exchanged at the terminals of a point."""

    one: str
    other: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with each terminal on the other's node."""
        del size
        return with_fields(circuit, terminals={**circuit.terminals, self.one: self.other, self.other: self.one})


class Joined(NamedTuple):
    """Two nodes joined by a resistance."""

    one: str
    other: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with so many ohms between the nodes."""
        return with_fields(circuit, leaks=(*circuit.leaks, Branch(self.one, self.other, size)))


class Clamped(NamedTuple):
    """Electronics between two nodes: they pass current at 500 V, and less or hardly any at 250 V."""

    one: str
    other: str
    quiet: float = QUIET

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with a clamp of so many ohms between the nodes."""
        return with_fields(circuit, clamps=(*circuit.clamps, Clamp(self.one, self.other, size, quiet=self.quiet)))


class ClampedAll(NamedTuple):
    """Surge protection between three nodes, each pair of them."""

    line: str
    neutral: str
    earth: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with a clamp of so many ohms between each two."""
        clamps = (Clamp(one, other, size) for one, other in combinations(self, 2))
        return with_fields(circuit, clamps=(*circuit.clamps, *clamps))


class RingBridged(NamedTuple):
    """A figure of eight: a cable between two points of a ring, by number."""

    one: int
    other: int

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the bridge, of so many ohms in its line."""
        sizes = {"L": size, "N": size, "E": size * _EARTH_OF_A_BRIDGE}
        joints = (Branch(f"{core}{self.one}", f"{core}{self.other}", ohms) for core, ohms in sizes.items())
        return with_fields(circuit, leaks=(*circuit.leaks, *joints))


class SpurLengthened(NamedTuple):
    """The cable to the last spur of a ring, by how its nodes end."""

    spur: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with so many ohms more in its line and neutral, and as much cable in its earth."""
        more = {f"{core}{self.spur}": size * (_EARTH_OF_A_BRIDGE if core == "E" else 1) for core in "LNE"}
        longer = {wire.id: more[wire.end] for wire in circuit.wires if wire.end in more}
        return _wires(circuit, longer, lambda wire: wire._replace(ohms=wire.ohms + longer[wire.id]))


class LegsCrossed(NamedTuple):
    """The second leg of a core exchanged with a leg of another ring."""

    core: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the other ring's leg on its terminal."""
        del size
        moved = (w._replace(end="other ring") if w.end == f"{self.core}x" else w for w in circuit.wires)
        theirs = Wire("other", self.core, "other leg", f"{self.core}x", 0.42, "of the other ring", "neighbour")
        return with_fields(circuit, wires=(*moved, theirs))


class StartsMoved(NamedTuple):
    """Wires that start at other nodes: pairs of a wire and its node."""

    pairs: tuple[tuple[str, str], ...]

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with each wire named starting at the node named."""
        del size
        starts = dict(self.pairs)
        return _wires(circuit, starts, lambda wire: wire._replace(start=starts[wire.id]))


class NeutralBorrowed(NamedTuple):
    """A wire to a light that comes from the neutral of the lighting circuit next to it."""

    wire: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the wire on the other neutral."""
        return StartsMoved(((self.wire, "Q1"),)).made(circuit, size)


class NeutralSwitched(NamedTuple):
    """The line straight to a light, by number, and its neutral through the switch."""

    light: int

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with line and neutral of the light changed over at its switch."""
        k = self.light
        moved = StartsMoved(((f"S{k}-A{k}", f"L{k}"), (f"N{k}-B{k}", f"S{k}"))).made(circuit, size)
        ways = tuple(
            each._replace(ways=((), ((f"N{k}", f"S{k}"),))) if each.name == f"switch {k}" else each
            for each in moved.switches
        )
        return with_fields(moved, switches=ways)


class ContactsExchanged(NamedTuple):
    """Two terminals of a switch exchanged: what belongs to one is on the other."""

    switch: str
    one: str
    other: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the switch wired so."""
        del size
        swap = {self.one: self.other, self.other: self.one}
        changed = tuple(
            each._replace(ways=tuple(tuple((swap.get(a, a), swap.get(b, b)) for a, b in way) for way in each.ways))
            if each.name == self.switch
            else each
            for each in circuit.switches
        )
        return with_fields(circuit, switches=changed)


class OtherDevice(NamedTuple):
    """Another device at the board than the one that was designed."""

    device: Device

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit behind the device."""
        del size
        return with_fields(circuit, device=self.device)


class RcdTime(NamedTuple):
    """The time of the RCD."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with an RCD that takes so many milliseconds, infinite where it does not trip."""
        return with_fields(circuit, rcd_ms=size)


class Leakage(NamedTuple):
    """Current to earth that is always there."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with so many milliamperes of it."""
        return with_fields(circuit, leakage_ma=size)


def _wires(circuit: Circuit, named: Container[str], change: Callable[[Wire], Wire]) -> Circuit:
    """The circuit with the wires of these ids changed."""
    return with_wires(circuit, tuple([change(wire) if wire.id in named else wire for wire in circuit.wires]))
