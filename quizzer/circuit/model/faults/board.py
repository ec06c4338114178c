"""What goes wrong at the board: a wrong device, a slow or dead RCD, leakage that is always there."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.edits import Leakage, OtherDevice, RcdTime
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.wiring import Circuit, Device

_NOTHING = "Nothing seems wrong, but the insurer wants this circuit tested."

WRONG_DEVICE = FaultKind("wrong-device", 1, _NOTHING, "fit the device that was designed", fails="loop")
RCD_LATE = FaultKind(
    "rcd-late",
    2,
    _NOTHING,
    "replace the RCD",
    fails="rcd",
    sizes=Span(305.0, 995.0),  # later than 300 ms, and it trips at all
)
RCD_DEAD = FaultKind("rcd-dead", 2, "The test button has no effect.", "replace the RCD", fails="rcd")
LEAKAGE = FaultKind(
    "standing-leakage",
    1,
    "It trips, not always at once, and nobody can say why.",
    "find and repair what leaks",
    thing=True,
    fails="leakage",
    sizes=Span(9.3, 25.0),  # over 0.3 of 30 mA, and it does not trip
)
KINDS = (WRONG_DEVICE, RCD_LATE, RCD_DEAD, LEAKAGE)


def places(circuit: Circuit) -> Iterator[Fault]:
    """Each once a circuit; those of an RCD where there is one."""
    if circuit.shape in STARTERS and not circuit.has_rcd:
        return
    own = circuit.device
    other = Device({"B": "C", "C": "D"}[own.type], own.amps)
    if circuit.supply.earthing != "TT":  # there the RCD disconnects, and no loop that is measured says anything of it
        yield Fault(WRONG_DEVICE, OtherDevice(other), 0.0, f"a {other} device is fitted where {own} was designed")
    if not circuit.has_rcd:  # standing leakage is held to a share of what trips one
        return
    yield Fault(RCD_LATE, RcdTime(), 300 + 7 * circuit.rcd_ms, "the RCD trips too late")
    yield Fault(RCD_DEAD, RcdTime(), inf, "the RCD does not trip at all")
    noun = "too much standing leakage"
    yield Fault(LEAKAGE, Leakage(), 11 + circuit.leakage_ma, f"{noun} on the circuit", noun=noun)
