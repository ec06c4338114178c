"""Two conductors exchanged at the terminals of a point."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.edits import Exchanged
from quizzer.circuit.model.fault import Fault, FaultKind
from quizzer.circuit.model.wiring import CORE_NAMES, SOCKETS, Circuit

_REPAIR = "put the conductors on their own terminals"
_TRIPS = "It trips, not always at once, and nobody can say why."

LINE_NEUTRAL = FaultKind(
    "line-neutral-reversed",
    1,
    "Nothing seems wrong, but the insurer wants this circuit tested.",
    _REPAIR,
    way="exchanged",
)
LINE_EARTH = FaultKind(
    "line-earth-reversed",
    2,
    "DANGER: somebody had a shock from the metal of an appliance. Nobody has touched it since.",
    _REPAIR,
    way="exchanged",
)
NEUTRAL_EARTH = FaultKind("neutral-earth-reversed", 2, _TRIPS, _REPAIR, way="exchanged")
KINDS = (LINE_NEUTRAL, LINE_EARTH, NEUTRAL_EARTH)
_PAIRS = ((LINE_NEUTRAL, "L", "N"), (LINE_EARTH, "L", "E"), (NEUTRAL_EARTH, "N", "E"))


def places(circuit: Circuit) -> Iterator[Fault]:
    """Each pair at each point of a socket circuit."""
    if circuit.shape not in SOCKETS:
        return
    for k, point in enumerate(circuit.points, 1):
        # What is exchanged on one side of a switch only comes out exchanged beyond it: that is another fault.
        where = f"{point}, and there only" if point.endswith(" switch") else point
        for row, one, other in _PAIRS:
            say = f"{CORE_NAMES[one]} and {CORE_NAMES[other]} are exchanged at"
            yield Fault(row, Exchanged(f"{one}{k}", f"{other}{k}"), 0.0, f"{say} {where}", f"{say} one point")
