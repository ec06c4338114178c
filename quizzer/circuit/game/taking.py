"""A test is taken: what stops the exercise before it, and what has to be done first."""

from __future__ import annotations

from quizzer.circuit.game.exercise import Done, Exercise, State, missing, stop, taken
from quizzer.circuit.testing.tests import Test

_NOT_PROVED = "a dead test was begun before the circuit was isolated, locked off and proved dead"
_SHOWN_LIVE = "a test for dead circuits was begun on conductors that the indicator had shown to be live"


def take(play: Exercise, state: State, at: int) -> Done:
    """The state after a test, and its reading; the reason where it stops the exercise or cannot be done yet."""
    test = play.tests[at]
    not_yet = _not_yet(play, state, test)
    why = "" if not_yet else _unsafe(play, state, test)
    if why:
        return stop(state, why)
    return (state, not_yet) if not_yet else taken(play, state, at)


def _unsafe(play: Exercise, state: State, test: Test) -> str:
    """Why the exercise is stopped here, "" where it goes on."""
    if test.uses in {"eye", "incoming", "operating"}:
        return ""
    if not test.instrument.live:
        return "" if state.proved else _SHOWN_LIVE if state.shown == "live" else _NOT_PROVED
    wanted = missing(state, play.first_duties)
    return f"a live test was begun before the dead tests had passed: no {' and no '.join(wanted)}" if wanted else ""


def _not_yet(play: Exercise, state: State, test: Test) -> str:
    """What has to be done before the test, "" where nothing has."""
    if test.never:
        return f"Not done: {test.never}."
    if test.uses == "eye":
        return ""
    if test.uses == "operating":
        return "It is off: whatever is pressed, nothing moves." if state.off else ""
    if test.instrument.live:
        return _not_live(play, state, test)
    if state.proved and not state.loads_out:
        harmed = ", and electronics harmed" if test.uses == "insulation" else ""
        return f"The loads are still connected: they would be read{harmed}. Disconnect first."
    return ""


def _not_live(play: Exercise, state: State, test: Test) -> str:
    if test.uses == "incoming":
        return (
            "" if state.off and state.locked else "Loads come off first: switch the board off, lock it, then measure."
        )
    if state.off:
        return "The circuit is dead: this is a live test. The dead tests come first."
    if test.uses == "voltage" and missing(state, play.first_duties):
        return "Loads come off first: switch the board off; its incoming terminals are measured before anything else."
    return ""
