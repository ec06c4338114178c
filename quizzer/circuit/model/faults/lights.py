"""What goes wrong in lighting: neutrals, earths behind switches, and switches wired wrongly."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from quizzer.circuit.model.edits import AddedOhms, ContactsExchanged, NeutralBorrowed, NeutralSwitched
from quizzer.circuit.model.fault import Fault, FaultKind
from quizzer.circuit.model.wiring import LIGHTS, Circuit

_FOLLOW = "Follow the line from contact to contact: in this setting it now takes another way."

BORROWED = FaultKind(
    "borrowed-neutral",
    3,
    "The RCD trips when a light is switched on.",
    "bring the neutral back to its own circuit",
    reads="The light's neutral does not come from this circuit, so the link at the board does not reach it.",
)
TRANSPOSED = FaultKind(
    "strappers-transposed", 1, "A light obeys one switch only at times.", "put common and strapper right", reads=_FOLLOW
)
INTERMEDIATE = FaultKind(
    "intermediate-miswired", 2, "A light stays off in some settings.", "put the strappers right", reads=_FOLLOW
)
SWITCHED_NEUTRAL = FaultKind(
    "switch-in-neutral",
    2,
    "Somebody changed a lamp and felt a tingle.",
    "move the switch into the line",
    reads="The line reaches the light past the switch, which lies in the neutral.",
)
NO_EARTH = FaultKind(
    "no-earth-at-switch",
    2,
    "Nothing seems wrong, but the insurer wants this circuit tested.",
    "bring the protective conductor in",
)
KINDS = (BORROWED, TRANSPOSED, INTERMEDIATE, SWITCHED_NEUTRAL, NO_EARTH)


def places(circuit: Circuit) -> Iterator[Fault]:
    """At each light, behind each switch plate, and in the switches."""
    if circuit.shape not in LIGHTS:
        return
    for k, light in enumerate(circuit.points, 1):
        say = f"{light} has the neutral of another circuit"
        yield Fault(BORROWED, NeutralBorrowed(f"N{k}-B{k}"), 0.0, say, "a light has the neutral of another circuit")
        if circuit.shape == "lighting":
            say = f"switch {k} breaks the neutral of {light}, not its line"
            yield Fault(SWITCHED_NEUTRAL, NeutralSwitched(k), 0.0, say, "a switch breaks the neutral, not the line")
    for wire in circuit.wires:
        if wire.role == "plate":
            say = f"the protective conductor is missing {wire.where}"
            yield Fault(NO_EARTH, AddedOhms(wire.id), inf, say, "the protective conductor is missing at a switch")
    yield from _switching(circuit)


def _switching(circuit: Circuit) -> Iterator[Fault]:
    """Terminals of two-way and intermediate switches exchanged."""
    if circuit.shape in {"two-way", "intermediate"}:
        for number, strapper in enumerate(("P0", "R0"), 1):
            say = f"common and strapper {number} are exchanged at switch 1"
            edit = ContactsExchanged("switch 1", "L1", strapper)
            yield Fault(TRANSPOSED, edit, 0.0, say, "switch 1 is wired wrongly")
    if circuit.shape == "intermediate":
        say = "two strappers are exchanged across the intermediate switch"
        yield Fault(INTERMEDIATE, ContactsExchanged("intermediate", "R1", "U0"), 0.0, say)
