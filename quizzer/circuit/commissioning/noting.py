"""Noting a departure: kept for the form; danger that is present is told and made safe at once."""

from __future__ import annotations

from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.state import Command, CommissionDone, State, said

_OPENING = "blank"  # the kind that leaves a live part within reach
_OFF = "everything is off, or is switched off now, and stays off until"
_UNEARTHED = {  # kinds that leave the whole without a means of earthing that clears a fault
    "loop-high": f"The person in charge and the network operator are told at once; {_OFF} the supply's earth is "
    "put right.",
    "electrode": f"The person in charge is told at once; {_OFF} the electrode is put right.",
}
_TOLD = "Danger present: the person in charge is told at once"


def note(_play: Commission, state: State, command: Command) -> CommissionDone:
    """The state with a departure noted, or struck out again. What was made safe stays so."""
    found = command.note
    if found is None:
        raise ValueError("a departure is named with its kind")
    others = tuple(each for each in state.notes if (each.way, each.kind) != (found.way, found.kind))
    if command.setting:
        return CommissionDone(state._replace(notes=others), ("Struck out.",))
    after = state._replace(notes=(*others, found), carried=state.carried - {found})
    if found.kind == _OPENING:
        return said(after._replace(covered=True), command, f"Noted. {_TOLD}. {_made_safe(state)}")
    if found.kind in _UNEARTHED:
        return said(after, command, f"Noted. {_UNEARTHED[found.kind]}")
    if found.answer == "C1":
        return said(after, command, f"Noted. {_TOLD}, and what is not made safe is left off.")
    return CommissionDone(after, ("Noted.",))


def _made_safe(state: State) -> str:
    """What is done about the opening for now."""
    if state.off and state.proved:
        return "A temporary blank closes the opening; the right one is still owed."
    return "People are kept away; a temporary blank closes the opening once it is proved dead."
