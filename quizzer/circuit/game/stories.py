"""What a customer says of a fault and how it is repaired."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.circuit.model.faults import Fault


class Story(NamedTuple):
    """A complaint in plain words and the repair in a line."""

    complaint: str
    repair: str


_NOTHING = "Nothing seems wrong, but the insurer wants this circuit tested."
_TRIPS = "It trips, not always at once, and nobody can say why."
_DEAD = "Part of it does not work, and the breaker has not tripped."
_REMAKE = "remake the joint with sound conductor"

STORIES: dict[str, Story] = {
    "open-line": Story(_DEAD, _REMAKE),
    "open-neutral": Story(_DEAD, _REMAKE),
    "open-earth": Story(_NOTHING, _REMAKE),
    "loose-joint": Story("It smells warm now and then, and things hum.", _REMAKE),
    "line-neutral-reversed": Story(_NOTHING, "put the conductors on their own terminals"),
    "line-earth-reversed": Story(_TRIPS, "put the conductors on their own terminals"),
    "neutral-earth-reversed": Story(_TRIPS, "put the conductors on their own terminals"),
    "neutral-earth-short": Story(_TRIPS, "part the conductors and make the insulation good"),
    "low-line-earth": Story(_TRIPS, "replace the damaged or damp part"),
    "low-line-neutral": Story("The breaker feels warm and went off once.", "replace the damaged or damp part"),
    "appliance-left-in": Story("The last tester gave up at the insulation test.", "disconnect what was left in"),
    "electronics-left-in": Story(
        "The last tester gave up at the insulation test.", "disconnect it for the test, or test at 250 V"
    ),
    "surge-left-in": Story(
        "The last tester gave up at the insulation test.", "disconnect it for the test, or test at 250 V"
    ),
    "bridged-ring": Story(_NOTHING, "take the bridge out"),
    "rings-crossed": Story(_NOTHING, "put each leg back to its own ring"),
    "spur-off-spur": Story(_NOTHING, "feed each spur from the ring"),
    "borrowed-neutral": Story(
        "The RCD trips when a light is switched on.", "bring the neutral back to its own circuit"
    ),
    "strappers-transposed": Story("A light obeys one switch only at times.", "put common and strapper right"),
    "intermediate-miswired": Story("A light stays off in some settings.", "put the strappers right"),
    "switch-in-neutral": Story("Somebody changed a lamp and felt a tingle.", "move the switch into the line"),
    "no-earth-at-switch": Story(_NOTHING, "bring the protective conductor in"),
    "wrong-device": Story(_NOTHING, "fit the device that was designed"),
    "lost-neutral": Story(
        "Some lights glare, others are dim.",
        "switch off, keep everybody off metalwork, call the network operator (105 in Great Britain)",
    ),
    "single-phasing": Story("The motor hums and does not start.", _REMAKE),
    "sequence-reversed": Story("The motor runs the wrong way round.", "exchange two lines at the motor"),
    "rcd-late": Story(_NOTHING, "replace the RCD"),
    "rcd-dead": Story("The test button has no effect.", "replace the RCD"),
    "standing-leakage": Story(_TRIPS, "find and repair what leaks"),
}


def story_of(fault: Fault) -> Story:
    """The story of a fault."""
    return STORIES[fault.kind]
