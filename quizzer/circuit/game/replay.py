"""What became of a diagnosis: each step with the suspects before and after it, and the best way beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from quizzer.circuit.game.exercise import Exercise, State, needed, same
from quizzer.circuit.game.retesting import CertificateLine, left_out, results
from quizzer.circuit.testing.reading import Case
from quizzer.circuit.testing.schedule import Test
from quizzer.circuit.testing.worth import best_of, best_way, in_hindsight, left_on_average, surviving

Taking = Callable[[Sequence[Test], Sequence[int], Sequence[Case], Case], list[int]]


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
    """How a diagnosis ended: right or not, tests used, the fewest in hindsight, each step, what was left out, paper."""

    right: bool
    used: int
    fewest: int
    best_way: tuple[str, ...]
    replay: tuple[Played, ...]
    left_out: tuple[str, ...]
    paper: tuple[CertificateLine, ...]


def outcome(play: Exercise, state: State) -> Ending:
    """How it ended, and the replay."""
    way = tuple(play.tests[n].say for n in _way(play, best_way))
    fewest = len(_way(play, in_hindsight))
    right = state.finished or (state.named is not None and same(play, state.named))
    missing = tuple(left_out(play, state)) if state.finished else ()
    paper = tuple(results(play, state)) if state.finished else ()
    return Ending(right, len(state.taken), fewest, way, tuple(_replay(play, state)), missing, paper)


def _way(play: Exercise, taking: Taking) -> list[int]:
    """The best test each time, after a look, which is none; no live one before the dead tests it needs."""
    dead, live = _numbers(play, live=False), _numbers(play, live=True)
    left = surviving(play.tests[0], 0, play.true.values[0], play.cases)
    if play.dead_shows:
        return taking(play.tests, dead, left, play.true)
    required = [n for n in dead if needed(play, n)]
    way: list[int] = []
    for what in dict.fromkeys(needed(play, n) for n in required):
        able = [n for n in required if needed(play, n) == what]
        n = (taking(play.tests, able, left, play.true) or able)[0]
        left = surviving(play.tests[n], n, play.true.values[n], left)
        way.append(n)
    return way + taking(play.tests, live, left, play.true)


def _numbers(play: Exercise, *, live: bool) -> list[int]:
    """The dead tests, or the live ones, without the look."""
    return [n for n, test in enumerate(play.tests) if n and test.instrument.live is live and not test.never]


def _replay(play: Exercise, state: State) -> Iterator[Played]:
    left = play.cases
    for step in state.steps:
        better = "" if step.again or not step.test else _better(play, left, step.test)
        group = "" if step.test is None else play.tests[step.test].group
        yield Played(step.say, step.before, step.after, group, step.again, better)
        if step.test is not None and step.after < step.before:
            left = surviving(play.tests[step.test], step.test, play.true.values[step.test], left)


def _better(play: Exercise, left: tuple[Case, ...], taken: int) -> str:
    """The test that would have left fewer than the one taken, "" where none would: a dead one for a dead one."""
    able = _numbers(play, live=play.tests[taken].instrument.live)
    top, fewest = best_of(play.tests, able, left)
    own = left_on_average(play.tests[taken], [case.values[taken] for case in left])
    return play.tests[top].say if fewest < own - 1e-9 else ""
