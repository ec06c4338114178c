"""Faults that come and go: under load, when something is moved, or with time; and how to make that happen safely."""

from __future__ import annotations

from quizzer.circuit.game.exercise import Done, Exercise, State, When
from quizzer.circuit.game.tales import NOTHING, complaint
from quizzer.circuit.model.fault import Fault
from quizzer.circuit.model.wiring import SOCKETS, Circuit

_TALES: dict[When, str] = {
    "load": "After an hour with everything on it smells warm and things fail; cold, all is well.",
    "move": "It comes and goes when a door bangs. Just now all is well.",
    "wait": "It trips now and then in the damp of the evening. Just now all is well.",
}
WORDS: dict[When, str] = {
    "load": "only while it is warm from its load",
    "move": "only while it is moved",
    "wait": "only in the damp of the evening",
}


def conditions_of(circuit: Circuit, fault: Fault) -> tuple[When, ...]:
    """When the fault could show and else not, so that somebody notices: () where nobody would.

    A joint warms that carries more than lamps draw, and damp comes with the evening.
    """
    if complaint(circuit, fault) == NOTHING:
        return ()
    if fault.kind in {"open-line", "open-neutral", "loose-joint"}:
        warms = fault.kind == "loose-joint" and circuit.shape in SOCKETS
        return ("load", "move") if warms else ("move",)
    return ("wait",) if fault.kind == "low-line-earth" else ()


def tale(when: When) -> str:
    """What the customer says of a fault that comes and goes."""
    return _TALES[when]


def load(_play: Exercise, state: State) -> Done:
    """Everything on, watched and not touched."""
    if state.off:
        return state, "The circuit is off: only one that is on can be loaded."
    return _under(state, "load"), "Everything on it runs for an hour; you watch, and touch nothing. It is warm now."


def move(_play: Exercise, state: State) -> Done:
    """Each joint and accessory moved while it is measured, the circuit dead."""
    if not state.proved:
        return state, "Joints are moved by hand only when the circuit is proved dead."
    return _under(state, "move"), "From now on each accessory and joint is moved while the instrument reads."


def wait(_play: Exercise, state: State) -> Done:
    """A later time of the day."""
    return _under(
        state, "wait"
    ), "You come back in the damp of the evening; what was warm is cold, and nothing is moved."


def _under(state: State, when: When) -> State:
    return state._replace(under=when)
