"""The next best test in the trade's order, and the fewest that could have told the fault."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice

from quizzer.circuit.game.exercise import Exercise, left_of
from quizzer.circuit.game.proving import at_terminals
from quizzer.circuit.model.faults.further_site import NEUTRAL_LOST
from quizzer.circuit.testing.reading import told_apart
from quizzer.circuit.testing.suspicion import Suspect, sampled, surviving
from quizzer.circuit.testing.tests import AS_USED
from quizzer.circuit.testing.worth import left_on_average

Leaves = Callable[[int, Sequence[Suspect]], int]  # how many of the suspects a test leaves


_TRIPPING = {"op-trip", "op-again"}  # nobody begins by tripping a relay


def next_best(play: Exercise, left: Sequence[Suspect], done: Sequence[int], *, told: bool = False) -> int | None:
    """The test to take next; None where none tells anything more.

    While all that was read is as it should be, that is the first compulsory one in the trade's order, the farthest
    point first: it stands for those before it. After an odd reading, or when all of them have passed, it is the test
    that says most in the first group that says anything.

    As it is `told` to a person, a machine is operated in the order in which its user does that, and where nothing in
    the building works the incoming terminals come first. Sets are drawn by the way that knows neither.
    """
    if told and (first := [n for n in _all_dead(play) if n not in done]):
        return first[0]
    at = next_compulsory(play, done, told=told)
    if at is not None and not play.odd.intersection(done):
        return at
    for able in _groups(play, done, told=told):
        values = sampled(play.circuit, play.tests, able, left)
        worth = {n: left_on_average(play.tests[n], values[n]) for n in able}
        best = min(able, key=lambda n: worth[n])
        if worth[best] < len(left) - 1e-9:
            return best
    return None


def _all_dead(play: Exercise) -> tuple[int, ...]:
    """The tests at the incoming terminals, where the customer says that nothing in the building works; else none."""
    return at_terminals(play) if play.complaint == NEUTRAL_LOST.complaint else ()


def next_compulsory(play: Exercise, done: Sequence[int], *, told: bool = False) -> int | None:
    """The farthest point of the first compulsory group in the trade's order; None where all of them are done."""
    duties = duty_tests(play)
    compulsory = [n for n in _in_order(play, done) if n in duties]
    group = play.tests[compulsory[0]].group if compulsory else ""
    in_turn = told and group != "" and play.tests[compulsory[0]].uses in AS_USED
    ordered = compulsory if in_turn else compulsory[::-1]
    return next((n for n in ordered if play.tests[n].group == group), None)


def duty_tests(play: Exercise) -> frozenset[int]:
    """Every compulsory test of a circuit on which nothing was renewed."""
    duties = (*play.first_duties, *play.last_duties)
    return frozenset(n for duty in duties if duty.stage != "renewed" for n in duty.tests)


def _in_order(play: Exercise, done: Sequence[int]) -> list[int]:
    """The tests that can be done and were not, in the order of first tests; the look stands before all of them."""
    duties = duty_tests(play)
    return sorted((n for n in play.allowed if n and n not in done), key=lambda n: _rank(play, n, duties))


def _rank(play: Exercise, at: int, duties: frozenset[int]) -> int:
    """The supply, or how a machine works, before anything is opened; continuity; insulation; other dead ones; live."""
    test = play.tests[at]
    if test.uses in {"incoming", *AS_USED}:
        return 3 if test.id.startswith("origin-") else 0
    if test.instrument.live:
        return 4
    if at in duties:
        return 2 if test.uses == "insulation" else 1
    return 1 if test.id.startswith("LN-") or test.uses == "ohms" else 3


def _groups(play: Exercise, done: Sequence[int], *, told: bool) -> list[list[int]]:
    groups: dict[tuple[str, bool], list[int]] = {}
    for n in _in_order(play, done):
        groups.setdefault((play.tests[n].group, told and play.tests[n].id in _TRIPPING), []).append(n)
    return list(groups.values())


def told_way(play: Exercise) -> list[int]:
    """The best way as it is told to a person, with all that proves a fault of the supply."""
    way = list(_all_dead(play)) or best_way(play, told=True)
    return [*way, *(n for n in at_terminals(play) if n not in way)]


def best_way(play: Exercise, *, told: bool = False) -> list[int]:
    """The tests of a person who takes the next best one each time, after a look, until the fault is told."""
    done, left = _compulsory_way(play, told=told)
    while len(left) > 1 and len(done) < len(play.allowed):
        at = next_best(play, left, done, told=told)
        if at is None:
            break
        done.append(at)
        left = _without(play, at, left)
    return done[1:]


def _compulsory_way(play: Exercise, *, told: bool) -> tuple[list[int], tuple[Suspect, ...]]:
    """The look and the compulsory tests to the first odd reading, or to where the fault is told; who is left then.

    Which of them comes next does not hang on who is left, so all their readings are held against a suspect at once:
    tests of one state are solved together.
    """
    done = [0]
    while not play.odd.intersection(done):
        at = next_compulsory(play, done, told=told)
        if at is None:
            break
        done.append(at)
    left = _left_by(play, done, play.suspects)
    if len(left) > 1:
        return done, left
    alone, still, most = 0, play.suspects, len(done)  # told before the last of them: where, by halving
    while alone + 1 < most:
        middle = (alone + most) // 2
        if len(others := _left_by(play, done[alone:middle], still)) > 1:
            alone, still = middle, others
        else:
            most = middle
    return done[:most], left


def takes_longer(play: Exercise, most: int) -> bool:
    """Whether the best way has more than `most` tests, where compulsory ones that show nothing odd tell it at once.

    False where only the way itself could tell.
    """
    done = [0]
    while len(done) <= most + 1:
        if play.odd.intersection(done) or (at := next_compulsory(play, done)) is None:
            return False
        done.append(at)
    read = {n: play.true[n] for n in done[: most + 1]}
    fit = (each for each in play.suspects if surviving(play.circuit, play.tests, read, [each]))
    return len(list(islice(fit, 2))) > 1


def _left_by(play: Exercise, done: Sequence[int], suspects: Sequence[Suspect]) -> tuple[Suspect, ...]:
    """Those of the suspects that the tests done leave; the last reading, which may be odd, rules most of them out."""
    return surviving(play.circuit, play.tests, {n: play.true[n] for n in reversed(done)}, suspects)


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
