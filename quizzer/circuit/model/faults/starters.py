"""What goes wrong in starters: open and shut contacts, coils, wires on the wrong node, poles, the motor's ends."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from quizzer.circuit.model.contact_edits import OhmsOf, Opened, Rewired, Shut, StaysMoved, Together
from quizzer.circuit.model.control.parts import COILS, CONTACTS, Contact
from quizzer.circuit.model.edits import AddedOhms, Edit, Joined, Parted, StartsMoved
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.wiring import Circuit

_DEAD = "Nothing happens when a start button is pressed."
_STOPS_NOT = "DANGER: the stop button does nothing. It was switched off at the isolator."
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
HOLD_OTHER = FaultKind("hold-in-other", 3, "One way it runs only while held.", "rewire it", touches="machine")
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
    "DANGER: it runs on after stop. It was switched off at the isolator.",
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
LOCK_OPEN = FaultKind("interlock-open", 2, "One way it does nothing.", "renew the contact", touches="machine")
LOCK_OWN = FaultKind(
    "interlock-own", 3, "The contactors buzz and never close.", "cross the two wires over", touches="machine"
)
LOCK_SHUT = FaultKind(
    "interlock-bridged",
    3,
    "It works; but on a quick change over the supply device opened.",
    "take the bridge out, and look at the mechanical bar",
    touches="machine",
)
NOT_SWAPPED = FaultKind(
    "lines-not-swapped",
    2,
    "It turns the same way with either button.",
    "exchange two lines at one contactor",
    touches="machine",
    reads="The pole goes to the same end of the motor as that of the other contactor.",
)
TIMER_COIL = FaultKind("timer-coil", 2, "It stays in star and is weak.", "renew the timer", touches="machine")
TIMER_BREAK = FaultKind("timer-star-contact", 3, "It stays in star and is weak.", "renew the timer", touches="machine")
TIMER_MAKE = FaultKind(
    "timer-delta-contact", 3, "After the start it runs down again.", "renew the timer", touches="machine"
)
STAR_BACK = FaultKind(
    "star-contact-open", 2, "After the start it runs down again.", "renew the contact", touches="machine"
)
LINE_LATE = FaultKind("line-contact-open", 2, "The motor does not start.", "renew the contact", touches="machine")
ENDS = FaultKind(
    "ends-crossed",
    3,
    "It roars when it changes to delta.",
    "put the ends of each winding together again",
    touches="machine",
    reads="The two ends belong to two windings.",
)
KINDS = (
    FUSE, OVERLOAD, STOP_OPEN, STOP_SHUT, START_OPEN, START_SHUT, HOLD_OPEN, HOLD_MOVED, HOLD_OTHER, COIL_OPEN,
    COIL_SHORT, COIL_NEUTRAL, JOINT, COIL_VOLTS, TO_EARTH, WELDED, POLE, MOTOR_LINE, LOCK_OPEN, LOCK_OWN, LOCK_SHUT,
    NOT_SWAPPED, TIMER_COIL, TIMER_BREAK, TIMER_MAKE, STAR_BACK, LINE_LATE, ENDS,
)  # fmt: skip
_NOT_CLOSED, _NOT_HELD = "an interlock does not close", "a hold-in contact does not close"
_FUSE_GONE = Parted(("F1",))
_RATED_400 = (400 / 230) ** 2  # times the ohms of a coil for 230 V


def places(circuit: Circuit) -> Iterator[Fault]:
    """Each where the starter has it."""
    if circuit.shape in CONTACTS:
        yield from _supply(circuit)
        yield from _contacts(circuit)
        yield from _coils(circuit)
        yield from _power(circuit)
        yield from {"forward-reverse": _of_reversing, "star-delta": _of_star}.get(circuit.shape, _nothing)(circuit)


def _plain(row: FaultKind, edit: Edit, say: str, group: str = "") -> Fault:
    return Fault(row, edit, inf, say, group)


def _supply(circuit: Circuit) -> Iterator[Fault]:
    """What every starter has in front of its start buttons."""
    del circuit
    yield _plain(FUSE, AddedOhms("F1"), "the control fuse F1 is open, and nothing else")
    yield _plain(OVERLOAD, StaysMoved("F2"), "the overload relay F2 has tripped and was not reset")
    yield _plain(STOP_OPEN, Opened("S0", ("11", "n3")), "the stop button S0 does not close")
    yield _plain(STOP_SHUT, Shut("S0", ("11", "n3")), "the stop button S0 does not open")
    for name, at in (("joint F2", "the overload contact F2"), ("joint S0", "the stop button S0")):
        noun = "a joint of high resistance"
        yield Fault(JOINT, AddedOhms(name), 300.0, f"{noun} at {at}", f"{noun} at one place", noun)
    edit = Together((Joined("n4", "E0"), _FUSE_GONE))
    yield Fault(TO_EARTH, edit, 0.4, "the wire n4 touches earth, and the control fuse has gone")


def _contacts(circuit: Circuit) -> Iterator[Fault]:
    """Start buttons, and the contacts that hold in; a contact that fails from the wrong side."""
    for each in CONTACTS[circuit.shape]:
        if each.of.startswith("S") and each.makes:
            yield _plain(START_OPEN, Opened(each.of, each.pair), f"the start button {each.of} does not close")
            yield _plain(START_SHUT, Shut(each.of, each.pair), f"the start button {each.of} does not open")
        if _holds(each):
            say = f"the hold-in contact {each.label} does not close"
            yield _plain(HOLD_OPEN, Opened(each.of, each.pair), say, _NOT_HELD)
            moved = Rewired(each.of, ((each.pair, ("n2", each.other)),))
            say = f"the hold-in contact {each.label} is wired to n2, not to n3"
            yield _plain(HOLD_MOVED, moved, say, "a hold-in contact is wired to n2, not to n3")


def _holds(contact: Contact) -> bool:
    return contact.of.startswith("KM") and contact.one == "n3"


def _coils(circuit: Circuit) -> Iterator[Fault]:
    for coil in COILS[circuit.shape]:
        row = TIMER_COIL if coil.of.startswith("KT") else COIL_OPEN
        yield _plain(row, AddedOhms(coil.of), f"the coil of {coil.of} is open")
        say = f"the neutral of the coil of {coil.of} is open"
        yield _plain(COIL_NEUTRAL, AddedOhms(f"{coil.of} N"), say, "the neutral of a coil is open")
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
        yield _plain(WELDED, StaysMoved(name), f"the main contacts of {name} are welded", "main contacts are welded")
    for each in poles:
        say = f"the main pole {each.label} does not close"
        yield _plain(POLE, Opened(each.of, each.pair), say, "a main pole does not close")
    for wire in circuit.wires:
        if wire.role == "motor" and wire.core == "L":
            say = f"the conductor to {wire.end} of the motor is open"
            yield _plain(MOTOR_LINE, AddedOhms(wire.id), say, "a conductor to the motor is open")


def _of_reversing(circuit: Circuit) -> Iterator[Fault]:
    del circuit
    yield from _locks(("KM2", ("n5", "n6")), ("KM1", ("n8", "n9")))
    for of, mark, pair in (("S2", "21-22", ("n4", "n5")), ("S1", "21-22", ("n7", "n8"))):
        yield _plain(
            LOCK_OPEN, Opened(of, pair), f"the interlock {of} {mark} does not close", "an interlock does not close"
        )
    own = Rewired("KM1", ((("n8", "n9"), ("n5", "n6")),)), Rewired("KM2", ((("n5", "n6"), ("n8", "n9")),))
    yield _plain(LOCK_OWN, Together(own), "each interlock contact is in the rung of its own contactor")
    same = Rewired("KM2", ((("L1", "T3"), ("L1", "T1")), (("L3", "T1"), ("L3", "T3"))))
    yield _plain(NOT_SWAPPED, same, "KM2 does not exchange two lines")
    for of, pair, wrong in (("KM1", ("n3", "n4"), "n7"), ("KM2", ("n3", "n7"), "n4")):
        say = f"the hold-in contact {of} 13-14 is wired to {wrong}, not to {pair[1]}"
        edit = Rewired(of, ((pair, ("n3", wrong)),))
        yield _plain(HOLD_OTHER, edit, say, "a hold-in contact is wired to the other rung")


def _locks(*contacts: tuple[str, tuple[str, str]]) -> Iterator[Fault]:
    for of, pair in contacts:
        say = f"the interlock {of} 21-22"
        yield _plain(LOCK_OPEN, Opened(of, pair), f"{say} does not close", _NOT_CLOSED)
        yield _plain(LOCK_SHUT, Shut(of, pair), f"{say} is bridged", "an interlock is bridged")


def _of_star(circuit: Circuit) -> Iterator[Fault]:
    del circuit
    yield from _locks(("KM2", ("n5", "n6")))
    yield _plain(LOCK_SHUT, Shut("KM3", ("n8", "n9")), "the interlock KM3 21-22 is bridged", "an interlock is bridged")
    yield _plain(STAR_BACK, Opened("KM3", ("n8", "n9")), "the interlock KM3 21-22 does not close again")
    yield _plain(LINE_LATE, Opened("KM3", ("n4", "n7")), "the contact KM3 13-14 does not close")
    yield _plain(
        HOLD_OPEN,
        Opened("KM1", ("n4", "n7")),
        "the contact KM1 23-24 does not close",
        "a hold-in contact does not close",
    )
    yield _plain(TIMER_BREAK, Shut("KT1", ("n4", "n5")), "the timer contact KT1 55-56 does not open")
    yield _plain(TIMER_MAKE, Opened("KT1", ("n7", "n8")), "the timer contact KT1 67-68 does not close")
    crossed = StartsMoved((("line U2", "X2"), ("line V2", "X1")))
    yield _plain(ENDS, crossed, "the motor's ends U2 and V2 are exchanged")


def _nothing(circuit: Circuit) -> Iterator[Fault]:
    del circuit
    return iter(())
