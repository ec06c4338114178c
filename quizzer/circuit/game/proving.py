"""Isolating, locking, and proving dead: the indicator proved, the circuit tested, the indicator proved again."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.circuit.game.exercise import Done, Exercise, ExerciseStep, State, noted
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.faults.further_site import NEUTRAL_LOST

_DEAD = (
    "Line to neutral 0 V, line to earth 0 V, neutral to earth 0 V at the point of work. Now prove the indicator again."
)
_LIVE = "Line to neutral 230 V, line to earth 230 V, neutral to earth 0 V: NOT DEAD. Touch nothing. Which way feeds it?"
_LIVE_THREE = (
    "L1 to L2, L2 to L3 and L3 to L1 400 V each; L1, L2 and L3 to neutral 230 V each, to earth 230 V each; neutral to "
    "earth 0 V: NOT DEAD. Touch nothing. Which way feeds it?"
)
_REVERSED = (
    "Line to neutral 0 V, line to earth 0 V, neutral to earth 230 V: NOT DEAD. Touch nothing. What is marked neutral "
    "is live while the device is off."
)
_LOST = (
    "Line to neutral 0 V, neutral to earth 230 V, line to earth as much through what is connected: NOT DEAD. Touch "
    "nothing. The loads of other circuits bring the neutral bar to the line: switch the whole board off."
)
INDICATOR_FIRST = "Prove the indicator first: one that has failed shows every circuit as dead."
NOT_YET = "counts once the indicator is proved again"
_DOUBTED = "the indicator not proved after the incoming terminals"
_BOARD_OFF = "The whole board is off already; it stays off."
_WAY_OFF = "Its own way is off already; it stays off."
_FED = "Its own way is off already: something else feeds it. Switch the whole board off."
_NEUTRAL_NEXT = " A neutral that another circuit borrows shows nothing while it is on its bar."
_ALL_DEAD = (
    " Where nothing in the building works, that says nothing of what you switched off: the whole board comes off."
)
_THREE = "Every line to every other, to neutral and to earth 0 V at the point of work. Now prove the indicator again."


def isolate(play: Exercise, state: State) -> Done:
    """The circuit's own way off; after it was shown live, the way found that feeds it.

    Isolating switches nothing on: what is off already stays as it is, with its lock and its proof.
    """
    if play.circuit.shape == "three-phase" or state.off == "board":
        return isolate_all(play, state)
    traced = state.shown == "live"
    if state.off == "way" and not (traced and play.site.mislabelled and not state.traced):
        return (state, _FED) if traced else (noted(state, "isolate: off already"), _WAY_OFF)
    found = "The way that feeds it is another than the chart names: found, switched off, and the chart put right."
    words = (
        found if traced else "The way that the chart names is switched off at a device that is suitable for isolation."
    )
    return _not_proved(state)._replace(off="way", traced=state.traced or traced), words


def isolate_all(_play: Exercise, state: State) -> Done:
    """The whole board off, if it is not."""
    if state.off == "board":
        return noted(state, "isolate: off already"), _BOARD_OFF
    return _not_proved(state)._replace(off="board"), "The main switch is off, agreed with everybody in the building."


def _not_proved(state: State) -> State:
    return state._replace(locked=False, indicator=False, shown="", proved=False)


def lock(_play: Exercise, state: State) -> Done:
    """Locked, where there is something to lock."""
    if not state.off:
        return state, "There is nothing to lock: the circuit is still on."
    return state._replace(locked=True), "Locked off with your own lock, the notice is up, the key is in your pocket."


def prove_indicator(play: Exercise, state: State) -> Done:
    """The indicator on its proving unit: before the circuit is tested, or after it, which settles what it showed."""
    waiting = any(not step.believed for step in state.steps)
    if (state.shown or waiting) and _gave_up(play, state):
        words = (
            "The proving unit lights nothing: the indicator has failed in between, and what it showed says nothing. "
        )
        void = _void(state)._replace(renewed=True, indicator=False, shown="")
        return void, f"{words}Another one is fetched: start again."
    state = state._replace(steps=tuple(step._replace(believed=True) for step in state.steps))
    if not state.shown:
        words = " again: what it showed at the incoming terminals counts." if waiting else " of the indicator."
        return state._replace(indicator=True), f"The proving unit lights every step{words}"
    if state.shown == "live":
        return state._replace(indicator=True), "The indicator is sound: the circuit is live."
    words = "The proving unit lights every step again: the circuit is proved dead."
    return state._replace(proved=True, indicator=True), words


def prove_dead(play: Exercise, state: State) -> Done:
    """What the indicator shows of the circuit."""
    if not state.locked:
        return state, "Isolate and lock first: a circuit that anyone can switch on is not dead."
    if not state.indicator:
        return state, INDICATOR_FIRST
    if live(play, state) and not _gave_up(play, state):
        return state._replace(shown="live", proved=False, indicator=False), _shown_live(play, state)
    words = _THREE if _of_three_lines(play) else _DEAD
    if words == _DEAD and state.off == "way":
        words += _ALL_DEAD if play.complaint == NEUTRAL_LOST.complaint else _NEUTRAL_NEXT
    return state._replace(shown="dead", proved=False, indicator=False), words


def _void(state: State) -> State:
    """The state without what an indicator showed that had failed."""
    void = {step.test for step in state.steps if not step.believed}
    steps = (step if step.believed else ExerciseStep(f"{step.say}: void") for step in state.steps)
    return state._replace(steps=tuple(steps), passed=state.passed.difference(void))


def shown_at_terminals(play: Exercise, state: State, volts: float) -> float:
    """The volts that the indicator shows at the incoming terminals: none once it has failed."""
    return 0.0 if _gave_up(play, state) else volts


def at_terminals(play: Exercise) -> tuple[int, ...]:
    """The tests at the incoming terminals, all of which prove a fault of the supply that changes their voltage."""
    wanted = tuple(n for n, test in enumerate(play.tests) if test.uses == "incoming" and not test.never)
    return wanted if play.fault.row.touches == "supply" and play.odd.intersection(wanted) else ()


def unread(play: Exercise, steps: Sequence[ExerciseStep]) -> tuple[str, ...]:
    """What is missing at the incoming terminals for a fault of the supply that changes their voltage, each in words.

    Line to neutral alone is 0 V with an open neutral as with a dead line: each pair is read, with an indicator that
    was proved before and after.
    """
    wanted = at_terminals(play)
    taken = {step.test: step.believed for step in steps if step.test is not None}
    open_ = [play.tests[n].say for n in wanted if n not in taken]
    doubted = any(not taken.get(n, True) for n in wanted)
    return (*(f"{say} not read" for say in open_), *([_DOUBTED] if doubted else []))


def _shown_live(play: Exercise, state: State) -> str:
    """What the indicator shows of a circuit that is fed, line by line."""
    if _of_three_lines(play):
        return _LIVE_THREE
    wrong_way = play.site.mislabelled and not state.traced
    if play.fed.neutral_lost:  # behind the wrong way as well: what is on has its line, and no neutral
        return _LOST
    return _REVERSED if play.fed.supply_reversed and state.off == "way" and not wrong_way else _LIVE


def _of_three_lines(play: Exercise) -> bool:
    return play.circuit.shape in {"three-phase", *STARTERS}


def live(play: Exercise, state: State) -> bool:
    """Whether the circuit is in truth still fed at the point of work."""
    wrong_way = play.site.mislabelled and not state.traced
    return not state.off or (state.off == "way" and (wrong_way or play.fed.line))


def _gave_up(play: Exercise, state: State) -> bool:
    """Whether the indicator is the one that fails in use."""
    return play.site.weak_indicator and not state.renewed
