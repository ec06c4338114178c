"""A diagnosis being played: what it is about, how things stand, and what a test shows and stops."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf
from typing import NamedTuple

from quizzer.circuit.model.fault import Fault
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.reading import Case, case_of, first_difference, told
from quizzer.circuit.testing.schedule import SCHEDULED, Test
from quizzer.circuit.testing.worth import surviving

_NOT_PROVED = "a dead test was begun before the circuit was isolated, locked off and proved dead"


@dataclass(frozen=True, slots=True)
class Exercise:
    """What is played: the sound circuit, the hidden fault, the tests, what each suspect would read, and the history."""

    circuit: Circuit
    fault: Fault
    tests: tuple[Test, ...]
    sound: Case
    true: Case
    cases: tuple[Case, ...]
    history: tuple[str, ...] = ()

    @property
    def failing(self) -> tuple[int, ...]:
        """The tests that the fault makes read otherwise than in the sound circuit."""
        return tuple(
            n
            for n, test in enumerate(self.tests)
            if first_difference([test], [self.sound.values[n]], [self.true.values[n]]) is not None
        )

    @property
    def dead_shows(self) -> bool:
        """Whether the inspection or a dead test shows the fault."""
        return any(not self.tests[n].instrument.live for n in self.failing)


class ExerciseStep(NamedTuple):
    """One thing done: in words, with the test's number if it was one, and the suspects before and after it."""

    say: str
    before: int
    after: int
    test: int | None = None
    again: bool = False


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
    finished: bool = False
    stopped: str = ""
    steps: tuple[ExerciseStep, ...] = ()

    @property
    def taken(self) -> tuple[ExerciseStep, ...]:
        """The tests on the way to the fault; looking is none."""
        return tuple(step for step in self.steps if step.test and not step.again)

    @property
    def again(self) -> tuple[int, ...]:
        """The tests that were repeated after the repair."""
        return tuple(dict.fromkeys(step.test for step in self.steps if step.test is not None and step.again))

    @property
    def words(self) -> str:
        """How the circuit stands, in a word or two."""
        if not self.isolated:
            return "on"
        dead = "proved dead" if self.proved else "locked off" if self.locked else "off, not locked"
        return f"{dead}{', loads out' if self.loads_out else ''}{', EARTH OFF' if self.earth_off else ''}"


Done = tuple[State, str]


def exercise(
    circuit: Circuit, fault: Fault, suspects: tuple[Fault, ...], tests: tuple[Test, ...], history: tuple[str, ...] = ()
) -> Exercise:
    """The exercise, with the readings of every suspect worked out once. The first test is the look."""
    cases = tuple(case_of(circuit, each, tests) for each in suspects)
    true = next(case for case in cases if case.fault == fault)
    return Exercise(circuit, fault, tests, case_of(circuit, None, tests), true, cases, history)


def same(play: Exercise, fault: Fault) -> bool:
    """Whether it is the fault, or one that no test tells from it."""
    case = next(case for case in play.cases if case.fault == fault)
    return first_difference(play.tests, case.values, play.true.values) is None


def cured(play: Exercise, state: State) -> bool:
    """Whether what was repaired was the fault."""
    return state.repaired and state.named is not None and same(play, state.named)


def noted(state: State, say: str) -> State:
    """The state with one more step that told nothing about the suspects."""
    return replace(state, steps=(*state.steps, ExerciseStep(say, len(state.left), len(state.left))))


def stop(state: State, why: str) -> Done:
    """The exercise stopped, with the reason."""
    return replace(noted(state, "stopped"), stopped=why), f"STOPPED: {why}."


def take(play: Exercise, state: State, at: int) -> Done:
    """The state after a test, and its reading; a test after the repair is one repeated."""
    test = play.tests[at]
    why = _unsafe(play, state, test)
    if why:
        return stop(state, why)
    not_yet = _not_yet(state, test)
    if not_yet:
        return state, not_yet
    sound = cured(play, state)
    value = (play.sound if sound else play.true).values[at]
    left = state.left if sound else surviving(test, at, value, state.left)
    step = ExerciseStep(test.say, len(state.left), len(left), at, state.repaired)
    said = f"{test.instrument.name}, {test.say}: {told(play.circuit, test, value)}"
    return replace(state, left=left, steps=(*state.steps, step)), said


def _unsafe(play: Exercise, state: State, test: Test) -> str:
    """Why the exercise is stopped here, "" where it goes on."""
    if test.uses == "eye":
        return ""
    if not test.instrument.live:
        return "" if state.proved else _NOT_PROVED
    missing = [] if state.isolated else dead_tests_missing(play, state)
    return f"a live test was begun before the dead tests had passed: no {' and no '.join(missing)}" if missing else ""


def _not_yet(state: State, test: Test) -> str:
    """What has to be done before the test, "" where nothing has."""
    if test.instrument.live and state.isolated and test.uses != "eye":
        return "The circuit is dead: this is a live test. The dead tests come first."
    if test.never:
        return f"Not done: {test.never}."
    if test.uses == "insulation" and not state.loads_out:
        return "The loads are still connected: they would be read, and electronics harmed. Disconnect first."
    if test.uses == "continuity" and not state.loads_out:
        return "The loads are still connected: they would be read. Disconnect first."
    return ""


def dead_tests_missing(play: Exercise, state: State) -> list[str]:
    """What has to have been tested before anything is energised, and was not."""
    taken = {needed(play, step.test) for step in state.steps if step.test}
    return sorted({needed(play, n) for n in range(len(play.tests))} - taken - {""})


def needed(play: Exercise, at: int) -> str:
    """What a test shows of a circuit that is to be energised: each insulation, and the earth; "" where neither.

    A test that reads open in the sound circuit shows no continuity, and one at 250 V does not stand for 500 V.
    """
    test = play.tests[at]
    if test.uses == "insulation":
        return test.say if test.setting.volts == SCHEDULED else ""
    earth = test.uses == "continuity" and any(probe[0] in "EFG" or probe == "ME" for probe in test.probes)
    return "continuity of the protective conductor" if earth and play.sound.values[at] < inf else ""
