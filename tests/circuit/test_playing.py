"""Diagnoses played: unsafe order stops them, the retest is picked, the end says what each step was worth."""

import re
from random import Random

import pytest

from quizzer.circuit.game.actions import act, name
from quizzer.circuit.game.exercise import State, exercise, needed, take
from quizzer.circuit.game.histories import history
from quizzer.circuit.game.replay import outcome
from quizzer.circuit.game.retesting import touched
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.suspects import KINDS, suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.schedule import schedule
from quizzer.workflows.faults.diagnosing import played


def a_play(shape="radial", kind="open-earth"):
    """An exercise with a fault of the kind."""
    circuit = drawn(shape, 1, 6, Random(5).random)
    everything = suspects(circuit)
    fault = next(fault for fault in everything if fault.kind == kind)
    return exercise(circuit, fault, everything, (*schedule(circuit), *further(circuit)))


def after(play, *actions):
    """The state after actions by name, and tests by number."""
    state = State(left=play.cases)
    for each in actions:
        state, _ = take(play, state, each) if isinstance(each, int) else act(play, state, each)
    return state


SAFE = ("isolate", "lock", "prove")


@pytest.mark.parametrize(
    ("actions", "why"),
    [
        ((1,), "dead test"),
        (("isolate", 1), "dead test"),
        (("isolate", "lock", 1), "dead test"),
        (("disconnect",), "opened terminals"),
        (("earth off",), "earth was taken off"),
        ((*SAFE, "earth off", "energise"), "earth off"),
        ((*SAFE, 1, "energise"), "fault in"),
    ],
)
def test_unsafe_order_stops_the_exercise(actions, why):
    assert why in after(a_play(), *actions).stopped


@pytest.mark.parametrize("left_out", ["insulation at 500 V, line to earth", "continuity of the protective conductor"])
def test_nothing_is_energised_before_its_earth_and_each_insulation_are_tested(left_out):
    play = a_play("radial", "rcd-late")
    dead = [n for n in range(len(play.tests)) if needed(play, n) and needed(play, n) != left_out]
    stopped = on(play, after(play, *SAFE, "disconnect", *dead), "energise").stopped
    assert stopped == f"the circuit was energised before the dead tests had passed: no {left_out}"


def test_what_reads_open_in_a_sound_circuit_shows_no_continuity():
    for shape in SHAPES:
        play = played(shape, 3, 1)
        earths = [n for n in range(len(play.tests)) if needed(play, n) == "continuity of the protective conductor"]
        assert earths
        assert all(play.sound.values[n] < 10 for n in earths)
        assert len({needed(play, n) for n in range(len(play.tests))} - {""}) == 4


def test_loads_come_out_before_continuity_is_read():
    play = a_play()
    assert "Disconnect first" in take(play, after(play, *SAFE), 1)[1]


def test_a_live_test_first_stops_the_exercise():
    play = a_play()
    at = next(n for n, test in enumerate(play.tests) if test.instrument.live)
    assert "live test" in after(play, at).stopped


def test_a_whole_diagnosis_is_right_and_replayed():
    play = a_play()
    state = repaired(play, *SAFE, "disconnect", 1, 2, 3)
    state = on(play, state, *all_dead(play), "energise", *live_touched(play), "certify")
    found = outcome(play, state)
    assert state.finished
    assert found.right
    assert found.used == 3
    assert 1 <= found.fewest <= len(found.best_way)
    assert found.fewest <= found.used
    assert all(one.after <= one.before for one in found.replay)
    assert not found.left_out
    assert any("insulation" in line.instrument and "at least 1 MΩ" in line.limit for line in found.paper)


def test_what_was_left_out_of_the_retest_is_said_at_the_end():
    play = a_play()
    state = on(play, repaired(play, *SAFE, "disconnect", 1, 2, 3), dead_touched(play)[0], *all_dead(play), "energise")
    found = outcome(play, on(play, state, "certify"))
    assert "earth fault loop" in found.left_out
    assert found.right


def test_nothing_is_energised_after_a_repair_without_a_dead_test():
    play = a_play()
    state = on(play, after(play, *SAFE, "disconnect", *all_dead(play)))
    state = act(play, name(state, play.fault)[0], "repair")[0]
    assert "none of the dead tests" in act(play, state, "energise")[0].stopped


def test_the_wrong_fault_does_not_pass_the_retest():
    play = a_play()
    other = next(case.fault for case in play.cases if case.fault.kind == "low-line-earth")
    state = act(play, name(after(play, *SAFE, "disconnect", 1), other)[0], "repair")[0]
    _, said = take(play, state, play.failing[0])
    assert "over range" in said
    assert "fault in" in act(play, state, "energise")[0].stopped


def test_a_fault_that_only_live_tests_show_is_handed_over_only_when_mended():
    play = a_play("radial", "rcd-late")
    other = next(case.fault for case in play.cases if case.fault.kind == "standing-leakage")
    state = after(play, *SAFE, "disconnect", *all_dead(play), "energise", *live_touched(play), *SAFE)
    wrong = on(play, act(play, name(state, other)[0], "repair")[0], "energise")
    assert not wrong.stopped
    assert "handed over" in on(play, wrong, "certify").stopped
    right = on(play, act(play, name(state, play.fault)[0], "repair")[0], "energise", *live_touched(play), "certify")
    assert right.finished
    assert not outcome(play, right).left_out


@pytest.mark.parametrize("shape", SHAPES)
def test_the_history_is_of_the_shape_and_not_of_the_fault(shape):
    plays = [played(shape, 3, seed) for seed in range(8)]
    assert all(len(play.history) == 3 for play in plays)
    pool = {history(shape, Random(seed).random) for seed in range(400)}
    assert len(pool) > 300
    said = " ".join(line for history in pool for line in history)
    assert not re.search(r"\b(open|loose|exchanged|insulation|bridged|neutral|earth|spur|RCD)\b", said)


@pytest.mark.parametrize("shape", SHAPES)
def test_no_live_test_is_called_best_before_each_kind_of_dead_test(shape):
    for seed in range(6):
        play = played(shape, 3, seed)
        tests = {test.say: test for test in play.tests}
        way = [tests[say] for say in outcome(play, State(left=play.cases)).best_way]
        dead = [test for test in way if not test.instrument.live]
        assert way[: len(dead)] == dead
        if len(dead) < len(way):
            wanted = {test.uses for test in play.tests if not test.instrument.live and test.uses != "eye"}
            assert {test.uses for test in dead} == wanted
            assert not play.dead_shows


def on(play, state, *actions):
    """The state after more actions by name, and tests by number."""
    for each in actions:
        state, _ = take(play, state, each) if isinstance(each, int) else act(play, state, each)
    return state


def repaired(play, *actions):
    """The state after the actions, with the right fault named and repaired."""
    return act(play, name(after(play, *actions), play.fault)[0], "repair")[0]


def dead_touched(play):
    """A dead test of each group that the repair touches."""
    return [group[0] for group in touched(play).values() if not play.tests[group[0]].instrument.live]


def live_touched(play):
    """A live test of each group that the repair touches."""
    return [group[0] for group in touched(play).values() if play.tests[group[0]].instrument.live]


def all_dead(play):
    """Every dead test."""
    return [n for n, test in enumerate(play.tests) if not test.instrument.live]


@pytest.mark.parametrize("level", [1, 2, 3])
@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_can_be_played_at_every_level(shape, level):
    play = played(shape, level, 3)
    assert play.fault.kind in KINDS
    assert play == played(shape, level, 3)
