"""What goes wrong in starters: open and shut contacts, coils, wires on the wrong node, poles, the motor's ends."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from quizzer.circuit.model.contact_edits import OhmsOf, Opened, Rewired, Shut, StaysMoved, Together
from quizzer.circuit.model.control.parts import COILS, CONTACTS, Contact
from quizzer.circuit.model.edits import AddedOhms, Edit, Joined, Parted
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.wiring import Circuit

_DEAD = "Nothing happens when a start button is pressed."
_STOPS_NOT = "DANGER: the stop button does nothing."
_RENEW = "renew the contact block"
_FUSE_WENT = "Nothing happens any more. A new control fuse went at the first start."
_REMAKE = "remake the joint, and look at the conductor"
_PARALLEL = "The windings and coils that are left lie between the probes."

FUSE = FaultKind("control-fuse", 1, _DEAD, "find why it went, fit a fuse of the same rating", touches="machine")
OVERLOAD = FaultKind("overload-tripped", 1, _DEAD, "find the cause, let it cool, reset it by hand", touches="machine")
STOP_OPEN = FaultKind("stop-open", 1, _DEAD, _RENEW, touches="machine")
STOP_SHUT = FaultKind("stop-shut", 3, _STOPS_NOT, _RENEW, touches="machine")
START_OPEN = FaultKind("start-open", 1, _DEAD, _RENEW, touches="machine")
START_SHUT = FaultKind(
    "start-shut", 3, "DANGER: it starts by itself when it is switched on.", _RENEW, touches="machine"
)
HOLD_OPEN = FaultKind(
    "hold-in-open", 1, "It runs only while start is held.", "renew the contact or its wire", touches="machine"
)
HOLD_MOVED = FaultKind("hold-in-moved", 3, _STOPS_NOT, "move the wire to the other side of the stop", touches="machine")
COIL_OPEN = FaultKind("coil-open", 1, _DEAD, "renew the coil", touches="machine")
COIL_SHORT = FaultKind(
    "coil-short",
    2,
    _FUSE_WENT,
    "renew the coil, having looked at its voltage, and the fuse",
    touches="machine",
    sizes=Span(2.0, 40.0),  # from a dead short to what still blows a fuse of 2 A
)
COIL_NEUTRAL = FaultKind("coil-neutral", 2, _DEAD, _REMAKE, touches="machine")
JOINT = FaultKind(
    "control-joint",
    2,
    "The contactor buzzes.",
    _REMAKE,
    touches="machine",
    thing=True,
    sizes=Span(200.0, 700.0),  # with which a contactor buzzes and does not close
)
COIL_VOLTS = FaultKind("coil-volts", 2, "The contactor only hums.", "fit a coil for 230 V", touches="machine")
TO_EARTH = FaultKind(
    "control-to-earth",
    2,
    _FUSE_WENT,
    "renew the damaged wire, and the fuse",
    touches="machine",
    sizes=Span(0.05, 20.0),
    fails="insulation",
)
WELDED = FaultKind(
    "main-welded",
    2,
    "DANGER: it runs on after stop.",
    "renew the contactor, and look for what welded it",
    touches="machine",
    reads="The poles are welded together, whatever the coil does.",
)
POLE = FaultKind(
    "pole-open",
    2,
    "The motor hums, and the overload relay trips.",
    "renew the main contacts",
    touches="machine",
    reads="The pole does not touch when the armature is in.",
)
MOTOR_LINE = FaultKind(
    "motor-line-open",
    2,
    "The motor hums, and the overload relay trips.",
    _REMAKE,
    touches="machine",
    reads="The conductor ends on the way.",
)
TIMER_COIL = FaultKind("timer-coil", 2, "It stays in star and is weak.", "renew the timer", touches="machine")
KINDS = (
    FUSE, OVERLOAD, STOP_OPEN, STOP_SHUT, START_OPEN, START_SHUT, HOLD_OPEN, HOLD_MOVED, COIL_OPEN, COIL_SHORT,
    COIL_NEUTRAL, JOINT, COIL_VOLTS, TO_EARTH, TIMER_COIL, WELDED, POLE, MOTOR_LINE,
)  # fmt: skip
NOT_HELD = "a hold-in contact does not close"
_FUSE_GONE = Parted(("F1",))
_RATED_400 = (400 / 230) ** 2  # times the ohms of a coil for 230 V


def places(circuit: Circuit) -> Iterator[Fault]:
    """Each where the starter has it."""
    if circuit.shape in CONTACTS:
        yield from _supply(circuit)
        yield from _contacts(circuit)
        yield from _coils(circuit)
        yield from _power(circuit)


def plain(row: FaultKind, edit: Edit, say: str, group: str = "") -> Fault:
    """A fault of no size."""
    return Fault(row, edit, inf, say, group)


def _supply(circuit: Circuit) -> Iterator[Fault]:
    """What every starter has in front of its start buttons."""
    yield plain(FUSE, AddedOhms("F1"), "the control fuse F1 is open, and nothing else")
    yield plain(OVERLOAD, StaysMoved("F2"), "the overload relay F2 has tripped and was not reset")
    yield plain(STOP_OPEN, Opened("S0", ("11", "n3")), "the stop button S0 does not close")
    yield plain(STOP_SHUT, Shut("S0", ("11", "n3")), "the stop button S0 does not open")
    for name, at in (("joint F2", "the overload contact F2"), ("joint S0", "the stop button S0")):
        noun = "a joint of high resistance"
        yield Fault(JOINT, AddedOhms(name), 300.0, f"{noun} at {at}", f"{noun} at one place", noun)
    if not circuit.control_earthed or circuit.supply.earthing == "TT":  # not enough current for a fuse
        return
    edit = Together((Joined("n4", "E0"), _FUSE_GONE))
    yield Fault(TO_EARTH, edit, 0.4, "the wire n4 touches earth, and the control fuse has gone")


def _contacts(circuit: Circuit) -> Iterator[Fault]:
    """Start buttons, and the contacts that hold in; a contact that fails from the wrong side."""
    for each in CONTACTS[circuit.shape]:
        if each.of.startswith("S") and each.makes:
            yield plain(START_OPEN, Opened(each.of, each.pair), f"the start button {each.of} does not close")
            yield plain(START_SHUT, Shut(each.of, each.pair), f"the start button {each.of} does not open")
        if _holds(each):
            say = f"the hold-in contact {each.label} does not close"
            yield plain(HOLD_OPEN, Opened(each.of, each.pair), say, NOT_HELD)
            moved = Rewired(each.of, ((each.pair, ("n2", each.other)),))
            say = f"the hold-in contact {each.label} is wired to n2, not to n3"
            yield plain(HOLD_MOVED, moved, say, "a hold-in contact is wired to n2, not to n3")


def _holds(contact: Contact) -> bool:
    return contact.of.startswith("KM") and contact.one == "n3"


def _coils(circuit: Circuit) -> Iterator[Fault]:
    for coil in COILS[circuit.shape]:
        row = TIMER_COIL if coil.of.startswith("KT") else COIL_OPEN
        yield plain(row, AddedOhms(coil.of), f"the coil of {coil.of} is open")
        say = f"the neutral of the coil of {coil.of} is open"
        yield plain(COIL_NEUTRAL, AddedOhms(f"{coil.of} N"), say, "the neutral of a coil is open")
        if row is TIMER_COIL:
            continue
        edit = Together((OhmsOf(coil.of), _FUSE_GONE))
        say = f"the coil of {coil.of} is burnt to a short, and the control fuse has gone"
        yield Fault(COIL_SHORT, edit, 12.0, say, "a coil is burnt to a short, and the control fuse has gone")
        own = next(wire.ohms for wire in circuit.wires if wire.id == coil.of)
        say = f"the coil of {coil.of} is one for 400 V"
        yield Fault(COIL_VOLTS, OhmsOf(coil.of), own * _RATED_400, say, "a coil is one for 400 V")


def _power(circuit: Circuit) -> Iterator[Fault]:
    poles = [each for each in CONTACTS[circuit.shape] if each.pole]
    for name in dict.fromkeys(each.of for each in poles):
        yield plain(WELDED, StaysMoved(name), f"the main contacts of {name} are welded", "main contacts are welded")
    for each in poles:
        say = f"the main pole {each.label} does not close"
        yield plain(POLE, Opened(each.of, each.pair), say, "a main pole does not close")
    for wire in circuit.wires:
        if wire.role == "motor" and wire.core == "L":
            say = f"the conductor to {wire.end} of the motor is open"
            yield plain(MOTOR_LINE, AddedOhms(wire.id), say, "a conductor to the motor is open")
