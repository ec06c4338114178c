"""What can be done beside testing and proving dead, and what stops the exercise. Safety first, always."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.circuit.game.conditions import load, move, wait
from quizzer.circuit.game.exercise import Done, Exercise, State, alike, cured, missing, noted, stage, stop
from quizzer.circuit.game.proving import isolate, isolate_all, lock, prove_dead, prove_indicator
from quizzer.circuit.game.taking import take
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.fault import Fault
from quizzer.circuit.testing.of_rcds import BY_ID

_SHUT = "Nothing burnt at the board; accessories stay shut until it is dead."
_SHUT_STARTER = (
    "Nothing burnt from outside; the starter stays shut until it is dead. No contactor and no stop button isolates."
)
_OUT = "Loads, lamps and electronics that can be found are disconnected."
_OUT_STARTER = "The machine is secured against moving, electronics and what else is fed from the starter disconnected."
_OPENED = "you opened terminals before the circuit was proved dead"
_SHOWN_LIVE = "you opened terminals that the indicator had shown to be live"
_AGAIN: dict[str, str] = {  # by what the repair touches, what is due
    "wiring": "The whole circuit is proved again",
    "machine": "The whole starter is proved again, with its settings and its motor",
    **dict.fromkeys(("loads", "appliance"), "What it touched is proved again"),
}
_NOT_FOUND = (
    "Nothing has been repaired yet: there is nothing to hand over. That no fault was found is never signed as good: "
    "write down what was done, under which conditions, and what was not."
)
_PARTED = (
    "A neutral that you part from its bar is at 230 V to earth: it belongs to a circuit that is still on. It goes back "
    "at once, and nothing is proved any more. Switch the whole board off, lock, and prove dead again."
)


def act(play: Exercise, state: State, action: str) -> Done:
    """The state after one action, and what it showed. Raises KeyError for an action that is not one of `ACTIONS`."""
    after, said = ACTIONS[action](stage(play, state), state)
    if after != state and not after.stopped and len(after.steps) == len(state.steps):
        after = noted(after, action)
    return after, said


def name(state: State, fault: Fault) -> Done:
    """The fault named; a repair of another one before it no longer counts."""
    named_at = len(state.steps)
    after = noted(state, f"named: {fault.say}")
    return after._replace(named=fault, named_at=named_at, repaired=False), f"Named: {fault.say}."


def _look(play: Exercise, state: State) -> Done:
    after, said = take(play, state, 0)
    starter = play.circuit.shape in STARTERS
    return (
        after,
        f"Device {said.rpartition(': ')[2]}. {_SHUT_STARTER if starter else _SHUT}",
    )


def _disconnect(play: Exercise, state: State) -> Done:
    if not state.proved:
        return stop(state, _SHOWN_LIVE if state.shown == "live" else _OPENED)
    if play.fed.neutral and state.off == "way":
        return state._replace(proved=False, indicator=False, shown="live"), _PARTED
    return state._replace(loads_out=True), (_OUT_STARTER if play.circuit.shape in STARTERS else _OUT)


def _earth_off(_play: Exercise, state: State) -> Done:
    if not state.proved:
        return stop(state, "an earth was taken off a circuit that was not proved dead: its metalwork can become live")
    if state.off != "board":
        return stop(state, "the earthing conductor was taken off while other circuits were on: their metal loses it")
    return state._replace(earth_off=True), "The earthing conductor is off. It goes back before anything is energised."


def _earth_on(play: Exercise, state: State) -> Done:
    if not state.earth_off:
        return state, "No earth is off."
    earth = play.first_duties[0].tests
    words = "The earthing conductor is back: continuity of the protective conductor is to be proved again."
    return state._replace(earth_off=False, passed=state.passed.difference(earth)), words


def _energise(play: Exercise, state: State) -> Done:
    if not state.off:
        return state, "The circuit is on already."
    if why := _why_not(play, state):
        return stop(state, why)
    words = "Loads connected, lock and notice off, people told. Energised for the live tests."
    on = state._replace(off="", locked=False, indicator=False, shown="", proved=False, loads_out=False)
    return on._replace(under="" if on.under == "move" else on.under), words


def _why_not(play: Exercise, state: State) -> str:
    """Why the circuit must not be energised; "" where it may be."""
    if state.earth_off:
        return "the circuit was energised with its earth off"
    if wanted := missing(state, play.first_duties):
        since = " after the repair" if state.repaired or state.mended else ""
        return f"the circuit was energised before the dead tests had passed{since}: no {' and no '.join(wanted)}"
    # What a further test alone shows: a spur from a spur, a conductor of another circuit.
    return "the circuit was energised with a fault in" if play.dead_shows and not cured(play, state) else ""


def _repair(play: Exercise, state: State) -> Done:
    if state.named is None:
        return state, "Name the fault first: parts are not swapped on a guess."
    if state.named.row.touches == "supply":
        return _call(play, state)
    if not state.proved and state.named.row.touches != "appliance":
        return stop(state, "work was begun on a circuit that was not proved dead")
    say = f"Repair: {state.named.row.repair}."
    kept = frozenset(n for n in state.passed if not _touched(play, n, state.named))
    after = noted(state, say)._replace(repaired=True, passed=kept)
    if play.then and alike(play, state.named):
        after = after._replace(mended=(state.named_at, len(after.steps)))
    return (
        after,
        f"{say} {_AGAIN[state.named.row.touches]}, in the order of first tests; then the live tests.",
    )


def _touched(play: Exercise, at: int, fault: Fault) -> bool:
    """Whether a repair changes what a test measures: all of the wiring, or with loads taken out all but continuity.

    An appliance that is unplugged changes what leaks, and what that does to the RCD.
    """
    if fault.row.touches == "appliance":
        return play.tests[at].uses in BY_ID
    return fault.row.touches in {"wiring", "machine"} or play.tests[at].uses != "continuity"


def _call(play: Exercise, state: State) -> Done:
    """The network operator called to a fault of the supply."""
    if state.named is None or state.named.row.touches != "supply":
        return state, "The network operator is called for what is wrong in the supply: name that first."
    if not (state.off and state.locked):
        return stop(state, "the supply was reported while the board was still on")
    if state.earth_off:
        return state, "The earthing conductor goes back first (earth on)."
    if not alike(play, state.named):
        return noted(state, "called: the supply is sound"), "The network operator measures: the supply is sound."
    away = ", people keep off its metalwork," if play.circuit.supply.earthing == "TN-C-S" else ""
    words = f"The board stays off and locked{away} and the network operator is on the way (105)."
    return noted(state, f"Called: {state.named.row.repair}")._replace(called=True, finished=True), words


def _certify(play: Exercise, state: State) -> Done:
    if not (state.repaired or state.mended):
        return state, _NOT_FOUND
    if state.off:
        return state, "The circuit is still off: the live tests that the repair touches come before the paper."
    if not cured(play, state):
        return stop(state, "the circuit was handed over with a fault in")
    return state._replace(finished=True), "Signed and handed over."


ACTIONS: dict[str, Callable[[Exercise, State], Done]] = {
    "look": _look,
    "isolate": isolate,
    "isolate all": isolate_all,
    "lock": lock,
    "prove indicator": prove_indicator,
    "prove dead": prove_dead,
    "disconnect": _disconnect,
    "earth off": _earth_off,
    "earth on": _earth_on,
    "repair": _repair,
    "call": _call,
    "energise": _energise,
    "certify": _certify,
    "load": load,
    "move": move,
    "wait": wait,
}
