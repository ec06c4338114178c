"""What faults change at the origin of an installation: edits as those of `edits.py`."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.circuit.model.wiring import Circuit, with_fields


class SupplyReversed(NamedTuple):
    """Line and neutral exchanged before the installation."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit behind a supply whose neutral is where the line belongs."""
        del size
        return with_fields(circuit, supply_reversed=True)


class NeutralLost(NamedTuple):
    """The neutral of a single-phase supply open before the main switch."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit behind a supply without its neutral."""
        del size
        return with_fields(circuit, neutral_lost=True)


class LineDead(NamedTuple):
    """The line of a single-phase supply dead before the main switch."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit behind a supply without its line."""
        del size
        return with_fields(circuit, line_dead=True)


class SupplyJoint(NamedTuple):
    """A bad joint in the earth of the supply."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with so many ohms more in the loop before the installation."""
        return with_fields(circuit, supply_joint=size)


class EarthJoint(NamedTuple):
    """A bad joint of the main earthing conductor."""

    def made(self, circuit: Circuit, size: float) -> Circuit:
        """The circuit with so many ohms more at the main earthing terminal."""
        return with_fields(circuit, earth_joint=size)
