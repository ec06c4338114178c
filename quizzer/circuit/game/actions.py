"""What can be done beside testing, and what stops the exercise. Safety first, always."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from quizzer.circuit.game.exercise import Done, Exercise, State, cured, dead_tests_missing, noted, stop, take
from quizzer.circuit.game.retesting import touched
from quizzer.circuit.model.fault import Fault


def act(play: Exercise, state: State, action: str) -> Done:
    """The state after one action, and what it showed. Raises KeyError for an action that is not one of `ACTIONS`."""
    after, said = ACTIONS[action](play, state)
    if after != state and not after.stopped and len(after.steps) == len(state.steps):
        after = noted(after, action)
    return after, said


def name(state: State, fault: Fault) -> Done:
    """The fault named; a repair of another one before it no longer counts."""
    return replace(noted(state, f"named: {fault.say}"), named=fault, repaired=False), f"Named: {fault.say}."


def _look(play: Exercise, state: State) -> Done:
    after, said = take(play, state, 0)
    return after, f"Device {said.rpartition(': ')[2]}. No burn mark, no damage in sight."


def _isolate(_play: Exercise, state: State) -> Done:
    return replace(state, isolated=True), "The circuit is switched off at a device that is suitable for isolation."


def _lock(_play: Exercise, state: State) -> Done:
    if not state.isolated:
        return state, "There is nothing to lock: the circuit is still on."
    return replace(state, locked=True), "Locked off with your own lock, the notice is up, the key is in your pocket."


def _prove(_play: Exercise, state: State) -> Done:
    if not state.locked:
        return state, "Isolate and lock first: a circuit that anyone can switch on is not dead."
    words = "Tester proved, every pair of conductors dead at the point of work, tester proved again."
    return replace(state, proved=True), words


def _disconnect(_play: Exercise, state: State) -> Done:
    if not state.proved:
        return stop(state, "you opened terminals before the circuit was proved dead")
    return replace(state, loads_out=True), "Loads, lamps and electronics that can be found are disconnected."


def _earth_off(_play: Exercise, state: State) -> Done:
    if not state.proved:
        return stop(state, "an earth was taken off a circuit that was not proved dead: its metalwork can become live")
    words = "The earthing conductor is off. It goes back, and is checked, before anything else."
    return replace(state, earth_off=True), words


def _earth_on(_play: Exercise, state: State) -> Done:
    return replace(state, earth_off=False), "The earthing conductor is back and checked."


def _energise(play: Exercise, state: State) -> Done:
    if not state.isolated:
        return state, "The circuit is on already."
    why = _why_not(play, state)
    if why:
        return stop(state, why)
    words = "Loads connected, lock and notice off, people told. Energised for the live tests."
    return replace(state, isolated=False, locked=False, proved=False, loads_out=False), words


def _why_not(play: Exercise, state: State) -> str:
    """Why the circuit must not be energised; "" where it may be."""
    if state.earth_off:
        return "the circuit was energised with its earth off"
    if play.dead_shows and not cured(play, state):
        return "the circuit was energised with the fault in"
    if missing := dead_tests_missing(play, state):
        return f"the circuit was energised before the dead tests had passed: no {' and no '.join(missing)}"
    wanted = [n for group in touched(play).values() for n in group if not play.tests[n].instrument.live]
    if state.repaired and wanted and not set(wanted) & set(state.again):
        return "the circuit was energised after the repair with none of the dead tests repeated that it touched"
    return ""


def _repair(play: Exercise, state: State) -> Done:
    del play
    if state.named is None:
        return state, "Name the fault first: parts are not swapped on a guess."
    if not state.proved:
        return stop(state, "work was begun on a circuit that was not proved dead")
    say = f"Repair: {state.named.row.repair}."
    return replace(noted(state, say), repaired=True), f"{say} Now pick the tests that have to be repeated."


def _certify(play: Exercise, state: State) -> Done:
    if not state.repaired:
        return state, "Nothing has been repaired yet: there is nothing to certify."
    if state.isolated:
        return state, "The circuit is still off: the live tests that the repair touches come before the paper."
    if not cured(play, state):
        return stop(state, "the circuit was handed over with the fault in")
    return replace(state, finished=True), "Certified and handed over."


ACTIONS: dict[str, Callable[[Exercise, State], Done]] = {
    "look": _look,
    "isolate": _isolate,
    "lock": _lock,
    "prove": _prove,
    "disconnect": _disconnect,
    "earth off": _earth_off,
    "earth on": _earth_on,
    "repair": _repair,
    "energise": _energise,
    "certify": _certify,
}
