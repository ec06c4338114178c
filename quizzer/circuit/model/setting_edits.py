"""What faults change in the settings of a starter, in a magnet, and in the way its contacts are worked."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from quizzer.circuit.model.wiring import Circuit, Machine


class DialTimes(NamedTuple):
    """The current dial of the overload relay."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the dial at so many times what it should be at."""
        machine = machine_of(circuit)
        return replace(circuit, machine=machine._replace(dial=machine.dial * size))


class ResetsItself(NamedTuple):
    """The overload relay's reset."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with a relay that closes again when it has cooled."""
        del size
        return replace(circuit, machine=machine_of(circuit)._replace(resets_itself=True))


class TimerTimes(NamedTuple):
    """The time that a timer is set to."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the timer at so many times what it should be at."""
        machine = machine_of(circuit)
        return replace(circuit, machine=machine._replace(timer=machine.timer * size))


class Noisy(NamedTuple):
    """The magnet of a contactor, whose force falls to nothing twice in each period."""

    contactor: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with a contactor that chatters while it is in."""
        del size
        return replace(circuit, noisy=(*circuit.noisy, self.contactor))


class Latching(NamedTuple):
    """A switch that stays where it was put, in place of a push-button."""

    switch: str

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with the switch in it."""
        del size
        changed = (each._replace(latches=True) if each.name == self.switch else each for each in circuit.switches)
        return replace(circuit, switches=tuple(changed))


def machine_of(circuit: Circuit) -> Machine:
    """The machine of a starter on site. Raises ValueError for a circuit that has none."""
    if circuit.machine is None:
        raise ValueError("no machine is known")
    return circuit.machine
