"""What goes wrong at the origin: polarity of the supply, its earth, and the main earthing conductor."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.origin_edits import EarthJoint, SupplyJoint, SupplyReversed
from quizzer.circuit.model.wiring import LIGHTS, SOCKETS, Circuit

_NOTHING = "Nothing seems wrong, but the insurer wants this circuit tested."
CALL = "leave the main switch off and locked, and call the network operator (105 in Great Britain)"
_BAD = Span(0.9, 9.0)  # ohms of a joint that is bad and not open: common practice

REVERSED_SUPPLY = FaultKind(
    "supply-reversed", 2, "Everything works. The street was dug up last month.", CALL, touches="supply"
)
HIGH_EXTERNAL = FaultKind("high-external-loop", 2, _NOTHING, CALL, touches="supply", sizes=_BAD)
LOOSE_MAIN_EARTH = FaultKind(
    "loose-main-earth", 2, _NOTHING, "remake the joint at the main earthing terminal", sizes=_BAD
)
KINDS = (REVERSED_SUPPLY, HIGH_EXTERNAL, LOOSE_MAIN_EARTH)


def places(circuit: Circuit) -> Iterator[Fault]:
    """Of a single-phase supply; an ohm more of its earth says nothing beside an electrode."""
    if circuit.shape not in {*SOCKETS, *LIGHTS}:
        return
    say = "line and neutral are exchanged in the supply, before the main switch"
    yield Fault(REVERSED_SUPPLY, SupplyReversed(), 0.0, say)
    if circuit.supply.earthing != "TT":
        size = 0.9 + circuit.loose
        yield Fault(HIGH_EXTERNAL, SupplyJoint(), size, "the earth of the supply has a bad joint")
        yield Fault(LOOSE_MAIN_EARTH, EarthJoint(), size, "the main earthing conductor is loose at its terminal")
