"""What became of a diagnosis: the verdict, and each step with the suspects before and after it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from quizzer.circuit.game.advice import best_way, duty_tests, fewest, next_best
from quizzer.circuit.game.exercise import Exercise, State, alike, left_of, missing
from quizzer.circuit.testing.suspicion import Suspect, sampled, surviving
from quizzer.circuit.testing.worth import left_on_average

# Passed; found, and not yet (or not all) proved again; named without the readings that tell it; not found; unsafe.
Verdict = Literal["right", "unfinished", "left out", "unproved", "not found", "stopped"]


@dataclass(frozen=True, slots=True)
class Played:
    """One step of the replay: what was done, the suspects before and after, and a better test where there was one.

    `group` is the kind of test, "" where the step was none; `again` says that it was repeated after the repair.
    """

    say: str
    before: int
    after: int
    group: str
    again: bool
    better: str


@dataclass(frozen=True, slots=True)
class Ending:
    """How a diagnosis ended: the verdict, the suspects that were left when the fault was named, what was left out."""

    verdict: Verdict
    left: int
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Replay:
    """Each step, the tests used to find the fault, the fewest in hindsight, and the best way by group and place."""

    steps: tuple[Played, ...]
    used: int
    fewest: int
    best_way: tuple[tuple[str, str], ...]


def ending(play: Exercise, state: State) -> Ending:
    """How it ended."""
    if state.stopped:
        return Ending("stopped", 0, ())
    if state.named is None or not alike(play, state.named):
        return Ending("not found", 0, ())
    left = left_of(play, _read(state, state.named_at))
    if not all(alike(play, each.fault) for each in left):
        return Ending("unproved", len(left), ())
    out = tuple(missing(state, (*play.first_duties, *play.last_duties))) if state.finished and not state.called else ()
    if out:
        return Ending("left out", len(left), out)
    return Ending("right" if state.finished else "unfinished", len(left), ())


def _read(state: State, until: int) -> dict[int, float]:
    """What was read before a step, by test; the circuit was then as it was found."""
    steps = (step for step in state.steps[:until] if step.test is not None and not step.again)
    return {step.test: step.value for step in steps if step.test is not None}


def replayed(play: Exercise, state: State) -> Replay:
    """The replay. It is worked out when it is asked for: it takes longer than the verdict."""
    used = sum(1 for step in state.steps[: state.named_at or None] if step.test and not step.again)
    way = tuple((play.tests[n].group, play.tests[n].place) for n in best_way(play))
    return Replay(tuple(_steps(play, state)), used, fewest(play), way)


def _steps(play: Exercise, state: State) -> Iterator[Played]:
    left, done = left_of(play, {}), list[int]()
    for step in state.steps:
        if step.test is None or step.again or step.test in done:
            group = "" if step.test is None else play.tests[step.test].group
            yield Played(step.say, len(left), len(left), group, step.again, "")
            continue
        better = _better(play, left, step.test, done)
        done.append(step.test)
        before, left = len(left), surviving(play.circuit, play.tests, {step.test: step.value}, left)
        yield Played(step.say, before, len(left), play.tests[step.test].group, again=False, better=better)


def _better(play: Exercise, left: tuple[Suspect, ...], taken: int, done: list[int]) -> str:
    """The test that stands before it in the trade's order or says more in its group; "" for a compulsory one."""
    if not taken or taken in duty_tests(play) or len(left) == 1:
        return ""
    best = next_best(play, left, done)
    if best is None or best == taken:
        return ""
    if play.tests[best].group != play.tests[taken].group:
        return play.tests[best].say
    values = sampled(play.circuit, play.tests, [best, taken], left)
    own, other = (left_on_average(play.tests[n], values[n]) for n in (taken, best))
    return play.tests[best].say if other < own - 1e-9 else ""
