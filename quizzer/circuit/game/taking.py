"""A test is taken: what stops the exercise before it, and what has to be done first."""

from __future__ import annotations

from quizzer.circuit.game.exercise import (
    EARLY,
    Done,
    Exercise,
    ExerciseStep,
    State,
    cured,
    early,
    missing,
    passes,
    shows,
    stage,
    stop,
)
from quizzer.circuit.game.proving import INDICATOR_FIRST, NOT_YET, shown_at_terminals
from quizzer.circuit.testing.reading import told
from quizzer.circuit.testing.tests import AS_USED, Test

_NOT_PROVED = "a dead test was begun before the circuit was isolated, locked off and proved dead"
_SHOWN_LIVE = "a test for dead circuits was begun on conductors that the indicator had shown to be live"
_NO_VOLTAGE = 50.0  # volts under which an indicator lights nothing that tells that it works: common practice


def take(play: Exercise, state: State, at: int) -> Done:
    """The state after a test, and its reading; the reason where it stops the exercise or cannot be done yet."""
    play = stage(play, state)
    test = play.tests[at]
    not_yet = _not_yet(play, state, test)
    why = "" if not_yet else _unsafe(play, state, test)
    if why:
        return stop(state, why)
    return (state, not_yet) if not_yet else _taken(play, state, at)


def _unsafe(play: Exercise, state: State, test: Test) -> str:
    """Why the exercise is stopped here, "" where it goes on."""
    if test.uses in {"eye", "incoming", "origin", *AS_USED}:
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
    if test.uses in AS_USED:
        return "It is off: whatever is pressed, nothing moves." if state.off else ""
    if test.instrument.live:
        return _not_live(play, state, test)
    if state.proved and not state.loads_out:
        harmed = ", and electronics harmed" if test.uses == "insulation" else ""
        return f"The loads are still connected: they would be read{harmed}. Disconnect first."
    return ""


def _not_live(play: Exercise, state: State, test: Test) -> str:
    if test.uses in {"incoming", "origin"} and not (state.off == "board" and state.locked):
        return "Loads come off first: switch the whole board off (isolate all), lock it, then measure."
    if test.uses == "origin" and not state.earth_off:
        return "The earthing conductor comes off first (earth off), so that no other path is measured with the loop."
    if test.uses in {"incoming", "origin"}:
        return INDICATOR_FIRST if test.uses == "incoming" and not state.indicator else ""
    if state.off:
        return "The circuit is dead: this is a live test. The dead tests come first."
    if test.uses == "voltage" and missing(state, play.first_duties):
        return "Loads come off first: switch the board off; its incoming terminals are measured before anything else."
    return ""


def _taken(play: Exercise, state: State, at: int) -> Done:
    """The state after a test that may be done, and its reading."""
    test, sound = play.tests[at], cured(play, state)
    value = (play.true if shows(play, state.under) and not sound else play.mended)[at]
    value = shown_at_terminals(play, state, value) if test.uses == "incoming" else value
    counts = passes(play, at, value, mended=sound) and not early(play, state, at)
    passed = state.passed | {at} if counts else state.passed - {at}
    step = ExerciseStep(test.say, at, value, sound, state.under, believed=test.uses != "incoming")
    said = f"{test.instrument.name}, {test.say}: {told(play.circuit, test, value)}{_note(play, state, at, value)}"
    return state._replace(passed=passed, steps=(*state.steps, step)), said


def _note(play: Exercise, state: State, at: int, value: float) -> str:
    """That a reading does not count yet: of several taken together, of insulation once, of 0 V each."""
    if play.tests[at].uses == "incoming":
        return f" ({NOT_YET})" if value < _NO_VOLTAGE else ""
    before = state.steps[-1].test if state.steps else None
    if not early(play, state, at) or (before is not None and play.tests[before].uses == "insulation"):
        return ""
    return f" ({EARLY})"
