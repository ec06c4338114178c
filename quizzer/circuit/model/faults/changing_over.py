"""What goes wrong where contactors change over: interlocks, exchanged lines, the timer, star and delta."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.contact_edits import Opened, Rewired, Shut, Together
from quizzer.circuit.model.edits import StartsMoved
from quizzer.circuit.model.fault import Fault, FaultKind
from quizzer.circuit.model.faults.starters import HOLD_OPEN, plain
from quizzer.circuit.model.wiring import Circuit

HOLD_OTHER = FaultKind("hold-in-other", 3, "One way it runs only while held.", "rewire it", touches="machine")
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
    HOLD_OTHER, LOCK_OPEN, LOCK_OWN, LOCK_SHUT, NOT_SWAPPED, TIMER_BREAK, TIMER_MAKE, STAR_BACK, LINE_LATE, ENDS,
)  # fmt: skip
_NOT_CLOSED = "an interlock does not close"


def places(circuit: Circuit) -> Iterator[Fault]:
    """Each where the starter has it."""
    if circuit.shape == "forward-reverse":
        yield from _of_reversing()
    if circuit.shape == "star-delta":
        yield from _of_star()


def _of_reversing() -> Iterator[Fault]:
    yield from _locks(("KM2", ("n5", "n6")), ("KM1", ("n8", "n9")))
    for of, mark, pair in (("S2", "21-22", ("n4", "n5")), ("S1", "21-22", ("n7", "n8"))):
        yield plain(
            LOCK_OPEN, Opened(of, pair), f"the interlock {of} {mark} does not close", "an interlock does not close"
        )
    own = Rewired("KM1", ((("n8", "n9"), ("n5", "n6")),)), Rewired("KM2", ((("n5", "n6"), ("n8", "n9")),))
    yield plain(LOCK_OWN, Together(own), "each interlock contact is in the rung of its own contactor")
    same = Rewired("KM2", ((("L1", "T3"), ("L1", "T1")), (("L3", "T1"), ("L3", "T3"))))
    yield plain(NOT_SWAPPED, same, "KM2 does not exchange two lines")
    for of, pair, wrong in (("KM1", ("n3", "n4"), "n7"), ("KM2", ("n3", "n7"), "n4")):
        say = f"the hold-in contact {of} 13-14 is wired to {wrong}, not to {pair[1]}"
        edit = Rewired(of, ((pair, ("n3", wrong)),))
        yield plain(HOLD_OTHER, edit, say, "a hold-in contact is wired to the other rung")


def _locks(*contacts: tuple[str, tuple[str, str]]) -> Iterator[Fault]:
    for of, pair in contacts:
        say = f"the interlock {of} 21-22"
        yield plain(LOCK_OPEN, Opened(of, pair), f"{say} does not close", _NOT_CLOSED)
        yield plain(LOCK_SHUT, Shut(of, pair), f"{say} is bridged", "an interlock is bridged")


def _of_star() -> Iterator[Fault]:
    yield from _locks(("KM2", ("n5", "n6")))
    yield plain(LOCK_SHUT, Shut("KM3", ("n8", "n9")), "the interlock KM3 21-22 is bridged", "an interlock is bridged")
    yield plain(STAR_BACK, Opened("KM3", ("n8", "n9")), "the interlock KM3 21-22 does not close again")
    yield plain(LINE_LATE, Opened("KM3", ("n4", "n7")), "the contact KM3 13-14 does not close")
    yield plain(
        HOLD_OPEN,
        Opened("KM1", ("n4", "n7")),
        "the contact KM1 23-24 does not close",
        "a hold-in contact does not close",
    )
    yield plain(TIMER_BREAK, Shut("KT1", ("n4", "n5")), "the timer contact KT1 55-56 does not open")
    yield plain(TIMER_MAKE, Opened("KT1", ("n7", "n8")), "the timer contact KT1 67-68 does not close")
    crossed = StartsMoved((("line U2", "X2"), ("line V2", "X1")))
    yield plain(ENDS, crossed, "the motor's ends U2 and V2 are exchanged")
