"""What faults change in RCDs and in leakage: edits as those of `edits.py`."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.circuit.model.wiring import Circuit, with_fields


class RcdTrips(NamedTuple):
    """The residual current that trips the RCD."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with an RCD that trips from so many milliamperes on."""
        return with_fields(circuit, rcd_ma=size)


class ButtonDead(NamedTuple):
    """The test button of the RCD."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with an RCD that its button does not trip."""
        del size
        return with_fields(circuit, button=False)


class MainTime(NamedTuple):
    """The time of the main RCD."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit behind a main RCD that takes so many milliseconds."""
        return with_fields(circuit, main_ms=size)


class LoadLeaks(NamedTuple):
    """An appliance that leaks, by the number of its point."""

    point: int

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with an appliance that passes so many milliamperes to earth."""
        return with_fields(circuit, leaking_loads=(*circuit.leaking_loads, (self.point, size)))


class LeakagesAdd(NamedTuple):
    """Two circuits on one RCD, by number: 0 this one, from 1 on those beside it."""

    one: int
    other: int

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with so many milliamperes from each of the two."""
        leaks = [circuit.leakage_ma, *circuit.beside_ma]
        leaks[self.one] = leaks[self.other] = size
        return with_fields(circuit, leakage_ma=leaks[0], beside_ma=tuple(leaks[1:]))

    def parted(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with each of the two on an RCD of its own: they leak as before."""
        return with_fields(self.made(circuit, size), apart=(self.one, self.other))
