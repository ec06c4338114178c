"""The next best test in the trade's order, and the fewest that could have told the fault."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from quizzer.circuit.game.exercise import Exercise, left_of
from quizzer.circuit.testing.reading import told_apart
from quizzer.circuit.testing.suspicion import Suspect, sampled, surviving
from quizzer.circuit.testing.worth import left_on_average

Leaves = Callable[[int, Sequence[Suspect]], int]  # how many of the suspects a test leaves


def next_best(play: Exercise, left: Sequence[Suspect], done: Sequence[int]) -> int | None:
    """The test to take next; None where none tells anything more.

    While all that was read is as it should be, that is the first compulsory one in the trade's order, the farthest
    point first: it stands for those before it. After an odd reading, or when all of them have passed, it is the test
    that says most in the first group that says anything.
    """
    compulsory = [n for n in _in_order(play, done) if n in duty_tests(play)]
    if compulsory and not play.odd.intersection(done):
        group = play.tests[compulsory[0]].group
        return [n for n in compulsory if play.tests[n].group == group][-1]
    for able in _groups(play, done):
        values = sampled(play.circuit, play.tests, able, left)
        worth = {n: left_on_average(play.tests[n], values[n]) for n in able}
        best = min(able, key=lambda n: worth[n])
        if worth[best] < len(left) - 1e-9:
            return best
    return None


def duty_tests(play: Exercise) -> frozenset[int]:
    """Every compulsory test."""
    return frozenset(n for duty in (*play.first_duties, *play.last_duties) for n in duty.tests)


def _in_order(play: Exercise, done: Sequence[int]) -> list[int]:
    """The tests that can be done and were not, in the order of first tests; the look stands before all of them."""
    return sorted((n for n in play.allowed if n and n not in done), key=lambda n: _rank(play, n))


def _rank(play: Exercise, at: int) -> int:
    """The supply, or how a machine works, before anything is opened; continuity; insulation; other dead ones; live."""
    test = play.tests[at]
    if test.uses in {"incoming", "operating"}:
        return 3 if test.id.startswith("origin-") else 0
    if test.instrument.live:
        return 4
    if at in duty_tests(play):
        return 2 if test.uses == "insulation" else 1
    return 1 if test.id.startswith("LN-") or test.uses == "ohms" else 3


def _groups(play: Exercise, done: Sequence[int]) -> list[list[int]]:
    groups: dict[str, list[int]] = {}
    for n in _in_order(play, done):
        groups.setdefault(play.tests[n].group, []).append(n)
    return list(groups.values())


def best_way(play: Exercise) -> list[int]:
    """The tests of a person who takes the next best one each time, after a look, until the fault is told."""
    done, left = [0], left_of(play, {0: play.true[0]})
    while len(left) > 1 and len(done) < len(play.allowed):
        at = next_best(play, left, done)
        if at is None:
            break
        done.append(at)
        left = _without(play, at, left)
    return done[1:]


def fewest(play: Exercise) -> int:
    """How many tests could have told the fault after a look: each time the one that leaves fewest.

    Which one that is goes by the suspects as they were drawn, and only where those say nothing more by all their sizes:
    what a test leaves is always counted by all sizes.
    """
    done, left = [0], left_of(play, {0: play.true[0]})
    while len(left) > 1:
        able = [n for n in play.allowed if n not in done]
        at = _sharpest(able, left, _as_drawn(play)) or _sharpest(able, left, _of_any_size(play))
        if at is None:
            break
        done.append(at)
        left = _without(play, at, left)
    return len(done) - 1


def _sharpest(able: Sequence[int], left: Sequence[Suspect], leaves: Leaves) -> int | None:
    """The test that leaves fewest; None where each leaves all."""
    counts = {n: leaves(n, left) for n in able}
    at = min(able, key=lambda n: counts[n], default=None)
    return None if at is None or counts[at] >= len(left) else at


def _as_drawn(play: Exercise) -> Leaves:
    return lambda n, left: sum(not told_apart(play.tests[n], play.true[n], each.values[n]) for each in left)


def _of_any_size(play: Exercise) -> Leaves:
    return lambda n, left: len(_without(play, n, left))


def _without(play: Exercise, at: int, left: Sequence[Suspect]) -> tuple[Suspect, ...]:
    """The suspects that a test leaves."""
    return surviving(play.circuit, play.tests, {at: play.true[at]}, left)
