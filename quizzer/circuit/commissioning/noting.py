"""Noting a departure: kept for the form; danger that is present is told and made safe at once."""

from __future__ import annotations

from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.state import Command, CommissionDone, State, said

_OPENING = "blank"  # the kind that leaves a live part within reach
_UNEARTHED = {  # kinds that leave the whole without a means of earthing that clears a fault: who is told, until when
    "loop-high": ("The person in charge and the network operator are told at once", "the supply's earth is put right"),
    "electrode": ("The person in charge is told at once", "the electrode is put right"),
}
_IS_OFF, _IS_ON = "everything is off, and stays off", "it is still on: switch it off now (isolate), and it stays off"
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
        told, until = _UNEARTHED[found.kind]
        return said(after, command, f"Noted. {told}; {_IS_OFF if state.off else _IS_ON} until {until}.")
    if found.answer == "C1":
        return said(after, command, f"Noted. {_TOLD}, and what is not made safe is left off.")
    return CommissionDone(after, ("Noted.",))


def kept_off_by_note(state: State) -> str:
    """Why nothing may be on by what was noted of its means of earthing and not mended since; "" where nothing was."""
    owed = [each.kind for each in state.notes if each.kind in _UNEARTHED and each not in state.carried]
    if not owed:
        return ""
    until = f"until {_UNEARTHED[owed[0]][1]}, or the note is struck out"
    return f"You noted that the means of earthing has failed: nothing is energised or tested live {until}."


def _made_safe(state: State) -> str:
    """What is done about the opening for now."""
    if state.off and state.proved:
        return "A temporary blank closes the opening; the right one is still owed."
    return "People are kept away; a temporary blank closes the opening once it is proved dead."
