"""What goes wrong on site and is drawn from a later seed on: an RCD that trips, more switches that stay, no neutral.

In TT a wire that touches earth does not blow a control fuse: 230 V over an electrode of 20 ohms and more is under 12 A,
and the RCD opens long before a fuse does. A starter with a switch in place of its buttons starts again after a dip: an
open textbook, Basic Motor Control, has that of any control by two wires. A neutral that is open behind the cut-out
leaves the earth of every supply as it is, so that what is read is worked out; one that is lost in the street takes the
earth of a TN-C-S supply with it, and what is read then hangs on pipes and other people's loads: it is not drawn.
"""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.contact_edits import Opened, Together
from quizzer.circuit.model.edits import Joined
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.faults.control_site import TWO_WIRE
from quizzer.circuit.model.faults.origin import CALL
from quizzer.circuit.model.faults.starters import plain
from quizzer.circuit.model.origin_edits import NeutralLost
from quizzer.circuit.model.setting_edits import Latching
from quizzer.circuit.model.wiring import LIGHTS, SOCKETS, Circuit

RCD_TRIPS = FaultKind(
    "control-earth-trips",
    2,
    "The RCD trips when start is pressed.",
    "renew the damaged wire",
    touches="machine",
    sizes=Span(0.05, 20.0),
    fails="insulation",
)
NEUTRAL_LOST = FaultKind(
    "supply-neutral-lost",
    2,
    "Nothing in the building works, and the breakers have not tripped. The street has light.",
    CALL,
    touches="supply",
)
KINDS = (RCD_TRIPS, NEUTRAL_LOST)
_STARTS = {"forward-reverse": (("S1", "KM1", "n4"), ("S2", "KM2", "n7")), "star-delta": (("S1", "KM1", "n4"),)}
_BEHIND = {**_STARTS, "start-stop": (("S1", "KM1", "n4"),)}


def places(circuit: Circuit) -> Iterator[Fault]:
    """Behind each start button, in place of each, and before the main switch of a single-phase board."""
    if circuit.machine is not None:
        yield from _to_earth(circuit)
        for start, contactor, node in _STARTS.get(circuit.shape, ()):
            edit = Together((Latching(start), Opened(contactor, ("n3", node))))
            say = f"{start} is a switch that stays, and no hold-in contact of {contactor} is wired"
            yield plain(TWO_WIRE, edit, say, "a switch that stays is in place of a start button")
    if circuit.shape in {*SOCKETS, *LIGHTS}:
        say = "the neutral is open between the cut-out and the main switch"
        yield Fault(NEUTRAL_LOST, NeutralLost(), 0.0, say)


def _to_earth(circuit: Circuit) -> Iterator[Fault]:
    if not (circuit.control_earthed and circuit.supply.earthing == "TT"):
        return
    for _, _, node in _BEHIND[circuit.shape]:
        say = f"the wire {node} touches earth, and the RCD trips"
        yield Fault(RCD_TRIPS, Joined(node, "E0"), 0.4, say, "a wire behind a start touches earth, and the RCD trips")
