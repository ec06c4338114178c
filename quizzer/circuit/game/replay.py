"""What became of a diagnosis: the verdict, and each step with the suspects before and after it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from quizzer.circuit.game.advice import duty_tests, fewest, next_best, told_way
from quizzer.circuit.game.conditions import WORDS
from quizzer.circuit.game.exercise import Exercise, ExerciseStep, State, alike, left_of, missing, shows
from quizzer.circuit.game.proving import at_terminals, unread
from quizzer.circuit.model.fault import Fault
from quizzer.circuit.testing.suspicion import Suspect, sampled, surviving
from quizzer.circuit.testing.worth import left_on_average

# Passed; found, and not yet (or not all) proved again; named without the readings that tell it; not found, or not what
# was behind it; unsafe.
Verdict = Literal["right", "unfinished", "left out", "unproved", "not found", "second left", "stopped"]


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
    """How a diagnosis ended: the verdict, the suspects that were left when the fault was named, what was left out.

    `unread` is what was missing at the incoming terminals when the network operator was called.
    """

    verdict: Verdict
    left: int
    left_out: tuple[str, ...]
    unread: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Replay:
    """Each step, the tests used to find the fault, the fewest in hindsight, and the best way by group and place."""

    steps: tuple[Played, ...]
    used: int
    fewest: int
    best_way: tuple[tuple[str, str], ...]


class _Part(NamedTuple):
    """A fault that was looked for: its exercise, the steps from and before which it was told, and what was named."""

    play: Exercise
    since: int
    until: int
    named: Fault | None


def ending(play: Exercise, state: State) -> Ending:
    """How it ended."""
    if state.stopped:
        return Ending("stopped", 0, ())
    parts = _parts(play, state)
    ended = [_of_a_fault(part, state) for part in parts]
    unproved = next((each for each in ended if each.verdict == "unproved"), None)
    if unproved is None and len(ended) > 1 and ended[-1].verdict == "not found":
        return Ending("second left", 0, ())
    if unproved is None:
        return ended[-1]
    signed = state.finished and not state.called  # the paper names what it does not prove in any case
    return replace(unproved, left_out=tuple(_left_out(parts[-1].play, state))) if signed else unproved


def _of_a_fault(part: _Part, state: State) -> Ending:
    """How it ended for one fault."""
    play, named = part.play, part.named
    if named is None or not alike(play, named):
        return Ending("not found", 0, ())
    left = left_of(play, _read(play, state.steps[part.since : part.until]))
    missed = unread(play, state.steps)
    if missed or not all(alike(play, each.fault) for each in left):
        return Ending("unproved", len(left), (), missed)
    out = tuple(_left_out(play, state)) if state.finished and not state.called else ()
    if out:
        return Ending("left out", len(left), out)
    return Ending("right" if state.finished else "unfinished", len(left), ())


def _left_out(play: Exercise, state: State) -> Iterator[str]:
    yield from missing(state, (*play.first_duties, *play.last_duties))
    if play.when and not any(step.again and step.under == play.when for step in state.steps):
        yield f"nothing tested again under its condition ({WORDS[play.when]})"


def _read(play: Exercise, steps: Sequence[ExerciseStep]) -> dict[int, float]:
    """What was read in some steps, by test; with the fault in, under the condition in which it shows."""
    return {
        step.test: step.value
        for step in steps
        if step.test is not None and not step.again and step.believed and shows(play, step.under)
    }


def _parts(play: Exercise, state: State) -> list[_Part]:
    """Each fault that was looked for; a second one from the repair of the first on."""
    if not (play.then and state.mended):
        return [_Part(play, 0, state.named_at, state.named)]
    until, since = state.mended
    named = state.named if state.named_at >= since else None
    return [_Part(play, 0, until, play.fault), _Part(play.then, since, max(since, state.named_at), named)]


def replayed(play: Exercise, state: State) -> Replay:
    """The replay. It is worked out when it is asked for: it takes longer than the verdict."""
    parts = _parts(play, state)
    used = sum(_used(state, part) for part in parts)
    every = [play, *([play.then] if play.then else [])]
    way = tuple((each.tests[n].group, each.tests[n].place) for each in every for n in told_way(each))
    ends = [*(part.since for part in parts[1:]), len(state.steps)]
    steps = [
        step for part, end in zip(parts, ends, strict=True) for step in _steps(part.play, state.steps[part.since : end])
    ]
    least = sum(max(fewest(each), len(at_terminals(each))) for each in every)
    return Replay(tuple(steps), used, least, way)


def _used(state: State, part: _Part) -> int:
    """The tests that were taken before a fault was named."""
    steps = state.steps[part.since : part.until or None]
    return sum(1 for step in steps if step.test and not step.again)


def _steps(play: Exercise, steps: Sequence[ExerciseStep]) -> Iterator[Played]:
    left, done = left_of(play, {}), list[int]()
    for step in steps:
        if step.test is None or step.again or step.test in done or not (shows(play, step.under) and step.believed):
            group = "" if step.test is None else play.tests[step.test].group
            say = step.say if step.believed else f"{step.say} (the indicator was not proved after it)"
            yield Played(say, len(left), len(left), group, step.again, "")
            continue
        better = _better(play, left, step.test, done)
        done.append(step.test)
        before, left = len(left), surviving(play.circuit, play.tests, {step.test: step.value}, left)
        yield Played(step.say, before, len(left), play.tests[step.test].group, again=False, better=better)


def _better(play: Exercise, left: tuple[Suspect, ...], taken: int, done: list[int]) -> str:
    """The test that stands before it in the trade's order or says more in its group; "" for a compulsory one.

    Nor is it marked down to look at the supply first, where that was wrong.
    """
    if not taken or taken in {*duty_tests(play), *at_terminals(play)} or len(left) == 1:
        return ""
    best = next_best(play, left, done, told=True)
    if best is None or best == taken:
        return ""
    if play.tests[best].group != play.tests[taken].group:
        return play.tests[best].say
    values = sampled(play.circuit, play.tests, [best, taken], left)
    own, other = (left_on_average(play.tests[n], values[n]) for n in (taken, best))
    return play.tests[best].say if other < own - 1e-9 else ""
