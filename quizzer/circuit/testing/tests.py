"""A test of a circuit: what it is called, its instrument, the state that the circuit is in, and its probes."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.circuit.model.fault import Uses
from quizzer.circuit.model.network import Branch, Pair
from quizzer.circuit.testing.instrument import Instrument
from quizzer.circuit.testing.instruments import INSTRUMENTS, insulation_at

# Volts d.c. of the insulation test of circuits up to 500 V, by BS 7671 Table 64: a megohm is wanted.
SCHEDULED = 500
AS_USED: frozenset[Uses] = frozenset({"operating", "watch"})  # a machine is used as its user does, its covers shut


class TestSetting(NamedTuple):
    """The state of the circuit during a test: joints, switches, volts of an insulation test, wires taken out.

    `doing` is what is done to a starter in a row while it is on.
    """

    joins: tuple[Branch, ...] = ()
    positions: tuple[int, ...] = ()
    volts: int = 0
    parted: tuple[str, ...] = ()
    doing: tuple[str, ...] = ()


class Test(NamedTuple):
    """One test: what it is called, its group and place for a table of readings, its instrument, state and probes.

    `never` says why it is not done on this circuit; "" for a test that may be done.
    """

    id: str
    group: str
    place: str
    uses: Uses
    setting: TestSetting
    probes: Pair
    never: str = ""

    @property
    def instrument(self) -> Instrument:
        """The instrument used."""
        return insulation_at(self.setting.volts) if self.setting.volts else INSTRUMENTS[self.uses]

    @property
    def say(self) -> str:
        """The test in words."""
        return f"{self.group}, {self.place}" if self.place else self.group
