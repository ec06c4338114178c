"""What faults change in contacts and coils: each edit is a small value that says where, and makes the change."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from quizzer.circuit.model.edits import Edit
from quizzer.circuit.model.network import Pair
from quizzer.circuit.model.wiring import Circuit, with_fields

Way = tuple[Pair, ...]


class Opened(NamedTuple):
    """A contact that never closes."""

    switch: str
    pair: Pair

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the contact open in every position."""
        del size
        return _ways(circuit, self.switch, lambda way: tuple(pair for pair in way if pair != self.pair))


class Shut(NamedTuple):
    """A contact that never opens."""

    switch: str
    pair: Pair

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the contact closed in every position."""
        del size
        return _ways(circuit, self.switch, lambda way: way if self.pair in way else (*way, self.pair))


class Rewired(NamedTuple):
    """Contacts wired to other nodes: pairs of nodes as they should be, and as they are."""

    switch: str
    pairs: tuple[tuple[Pair, Pair], ...]

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with each of the contacts between its other nodes."""
        del size
        wired = dict(self.pairs)
        return _ways(circuit, self.switch, lambda way: tuple(wired.get(pair, pair) for pair in way))


class StaysMoved(NamedTuple):
    """A device that does not come back: a contactor whose contacts are welded, an overload relay that has tripped."""

    switch: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the device moved for good."""
        del size
        return with_fields(
            circuit,
            switches=tuple(
                each._replace(ways=(each.ways[1],) * 2) if each.name == self.switch else each
                for each in circuit.switches
            ),
        )


class OhmsOf(NamedTuple):
    """A wire, or a coil, of other ohms."""

    wire: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with so many ohms there."""
        wires = (wire._replace(ohms=size) if wire.id == self.wire else wire for wire in circuit.wires)
        return with_fields(circuit, wires=tuple(wires))


class Together(NamedTuple):
    """Edits that come together, as a fuse that has gone with what made it go."""

    edits: tuple[Edit, ...]

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with all of them; the size belongs to each that has one."""
        for edit in self.edits:
            circuit = edit.made(circuit, size)
        return circuit


def _ways(circuit: Circuit, name: str, change: Callable[[Way], Way]) -> Circuit:
    switches = (
        each._replace(ways=tuple(change(way) for way in each.ways)) if each.name == name else each
        for each in circuit.switches
    )
    return with_fields(circuit, switches=tuple(switches))
