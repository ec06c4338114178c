"""A diagnosis played step by step: what each action does, and what stops the exercise. Safety first, always."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from quizzer.circuit.faults import Fault
from quizzer.circuit.reading import Case, case_of, first_difference, told
from quizzer.circuit.stories import story_of
from quizzer.circuit.testing import Check
from quizzer.circuit.wiring import Circuit
from quizzer.circuit.worth import surviving


@dataclass(frozen=True, slots=True)
class Exercise:
    """What is played: the sound circuit, the hidden fault, the tests, and what each suspect would read."""

    circuit: Circuit
    fault: Fault
    tests: tuple[Check, ...]
    sound: Case
    true: Case
    cases: tuple[Case, ...]

    @property
    def dead_shows(self) -> bool:
        """Whether a dead test shows the fault."""
        return any(
            first_difference([test], [self.sound.values[n]], [self.true.values[n]]) is not None
            for n, test in enumerate(self.tests)
            if not test.instrument.live
        )


@dataclass(frozen=True, slots=True)
class Taken:
    """A test that was taken: its number, and the suspects before and after it."""

    test: int
    before: int
    after: int


@dataclass(frozen=True, slots=True)
class State:
    """How things stand. `stopped` is the reason why the exercise was stopped, "" while it goes on."""

    left: tuple[Case, ...]
    isolated: bool = False
    locked: bool = False
    proved: bool = False
    loads_out: bool = False
    earth_off: bool = False
    named: Fault | None = None
    repaired: bool = False
    retested: bool = False
    finished: bool = False
    stopped: str = ""
    taken: tuple[Taken, ...] = ()


Done = tuple[State, str]


def exercise(circuit: Circuit, fault: Fault, suspects: tuple[Fault, ...], tests: tuple[Check, ...]) -> Exercise:
    """The exercise, with the readings of every suspect worked out once."""
    cases = tuple(case_of(circuit, each, tests) for each in suspects)
    true = next(case for case in cases if case.fault == fault)
    return Exercise(circuit, fault, tests, case_of(circuit, None, tests), true, cases)


def act(play: Exercise, state: State, action: str) -> Done:
    """The state after one action, and what it showed. Raises KeyError for an action that is not one of `ACTIONS`."""
    return ACTIONS[action](play, state)


def _look(play: Exercise, state: State) -> Done:
    return state, f"Device {told(play.circuit, play.tests[0], play.true.values[0])}. No burn mark, no damage in sight."


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
        return _stop(state, "you opened terminals before the circuit was proved dead")
    return replace(state, loads_out=True), "Loads, lamps and electronics are disconnected."


def _earth_off(_play: Exercise, state: State) -> Done:
    if not state.proved:
        return _stop(state, "an earth was taken off a circuit that was not proved dead: its metalwork can become live")
    return replace(
        state, earth_off=True
    ), "The earthing conductor is off. It goes back, and is checked, before anything else."


def _earth_on(_play: Exercise, state: State) -> Done:
    return replace(state, earth_off=False), "The earthing conductor is back and checked."


def _energise(play: Exercise, state: State) -> Done:
    if state.earth_off:
        return _stop(state, "the circuit was energised with its earth off")
    if state.repaired and state.retested and _cured(play, state):
        words = "Energised. The live tests pass; the certificate is completed: a minor works certificate for a repair."
        return replace(state, finished=True, isolated=False, locked=False, proved=False), words
    if play.dead_shows or state.repaired:
        return _stop(state, "the circuit was energised with the fault in")
    if not _dead_tests_done(play, state):
        return _stop(state, "the circuit was energised before each kind of dead test had passed")
    return replace(state, isolated=False, locked=False, proved=False, loads_out=False), "Energised for the live tests."


def _dead_tests_done(play: Exercise, state: State) -> bool:
    wanted = {test.uses for test in play.tests if not test.instrument.live and test.uses != "eye"}
    return wanted <= {play.tests[each.test].uses for each in state.taken}


def _repair(play: Exercise, state: State) -> Done:
    if state.named is None:
        return state, "Name the fault first: parts are not swapped on a guess."
    if not state.proved:
        return _stop(state, "work was begun on a circuit that was not proved dead")
    del play
    return replace(state, repaired=True), f"Repair: {story_of(state.named).repair}."


def _retest(play: Exercise, state: State) -> Done:
    if not state.repaired:
        return state, "Nothing has been repaired yet."
    if not state.proved:
        return _stop(state, "a dead test was begun before the circuit was proved dead")
    if _cured(play, state):
        return replace(state, retested=True), "The tests that failed, and those they touch, pass now."
    return replace(state, retested=True, repaired=False, named=None), "The readings are as they were: that was not it."


def _cured(play: Exercise, state: State) -> bool:
    return state.named is not None and same(play, state.named)


def same(play: Exercise, fault: Fault) -> bool:
    """Whether it is the fault, or one that no test tells from it."""
    case = next(case for case in play.cases if case.fault == fault)
    return first_difference(play.tests, case.values, play.true.values) is None


def _stop(state: State, why: str) -> Done:
    return replace(state, stopped=why), f"STOPPED: {why}."


def take(play: Exercise, state: State, at: int) -> Done:
    """The state after a test, and its reading."""
    test, value = play.tests[at], play.true.values[at]
    if test.never:
        return state, f"Not done: {test.never}."
    if test.uses == "eye":
        pass
    elif test.instrument.live:
        if state.isolated:
            return state, "The circuit is dead: this is a live test. The dead tests come first."
    elif not state.proved:
        return _stop(state, "a dead test was begun before the circuit was isolated, locked off and proved dead")
    if test.uses == "insulation" and not state.loads_out:
        return state, "The loads are still connected: they would be read, and electronics harmed. Disconnect first."
    if test.instrument.live and test.uses != "eye" and not _dead_tests_done(play, state):
        return _stop(state, "a live test was begun before the dead tests had passed")
    left = surviving(test, at, value, state.left)
    taken = Taken(at, len(state.left), len(left))
    said = f"{test.instrument.name}, {test.say}: {told(play.circuit, test, value)}"
    return replace(state, left=left, taken=(*state.taken, taken)), said


ACTIONS: dict[str, Callable[[Exercise, State], Done]] = {
    "look": _look,
    "isolate": _isolate,
    "lock": _lock,
    "prove": _prove,
    "disconnect": _disconnect,
    "earth off": _earth_off,
    "earth on": _earth_on,
    "energise": _energise,
    "repair": _repair,
    "retest": _retest,
}
