"""Two faults of which one hides the other, and faults that come and go."""

from random import Random

import pytest

from quizzer.circuit.game.actions import act, name
from quizzer.circuit.game.conditions import conditions_of, tale
from quizzer.circuit.game.exercise import Beside, State, exercise, left_of, stage
from quizzer.circuit.game.marking import marked
from quizzer.circuit.game.replay import ending, replayed
from quizzer.circuit.game.second import hidden_behind
from quizzer.circuit.game.taking import take
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.suspects import suspects_on_site
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.on_site import further_on_site, on_site
from quizzer.circuit.testing.reading import told_apart
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.pages.diagnosis_end import end_page
from quizzer.workflows.faults.diagnosing import FIRST_SEED, made, played

PROVING = ("isolate all", "lock", *("prove indicator", "prove dead", "prove indicator") * 2, "disconnect")


def two(shape="radial"):
    """The first exercise with two faults of a shape."""
    plays = (played(shape, 3, seed) for seed in range(FIRST_SEED, FIRST_SEED + 60))
    return next(play for play in plays if play.then)


def coming_and_going(when, shape="radial"):
    """An exercise with a fault that shows under the condition, as one is drawn."""
    circuit = drawn(shape, 4, 4, Random(3).random)
    faults = [fault for fault in suspects_on_site(circuit) if when in conditions_of(circuit, fault)]
    return made(circuit, faults[len(faults) // 2], Beside(when=when), Random(5).random)


def on(play, state, *actions):
    """The state after actions by name, and tests by number."""
    for each in actions:
        state, _ = take(play, state, each) if isinstance(each, int) else act(play, state, each)
    return state


def of(duties):
    """The tests of duties."""
    return [n for duty in duties for n in duty.tests]


def dead_tests(play):
    """The dead tests that can be done with the fault in."""
    return [n for n in play.allowed if not play.tests[n].instrument.live]


def live_tests(play):
    """The live tests of a circuit in use."""
    return [
        n for n in play.allowed if play.tests[n].instrument.live and play.tests[n].uses not in {"incoming", "origin"}
    ]


def told_and_mended(play, state):
    """The state with the fault of this stage told by every test, named and mended."""
    now = stage(play, state)
    state = on(play, state, *dead_tests(now))
    if not now.dead_shows:
        state = on(play, state, *of(now.first_duties), "energise", *live_tests(now), *PROVING)
    return on(play, name(state, now.fault)[0], "repair")


@pytest.mark.parametrize("shape", ["ring", "radial", "lighting"])
def test_a_second_fault_is_hidden_and_found_only_by_testing_again(shape):
    play = two(shape)
    circuit, first, second = play.circuit, play.fault, play.then.fault
    both = with_fault(with_fault(circuit, first), second)
    tests = [play.tests[n] for n in play.allowed]
    alone, hiding = readings(with_fault(circuit, first), tests), readings(both, tests)
    assert not any(told_apart(test, one, other) for test, one, other in zip(tests, alone, hiding, strict=True))
    left = left_of(play, {n: play.true[n] for n in play.allowed})
    assert second not in [suspect.fault for suspect in left]
    state = told_and_mended(play, on(play, State(), *PROVING))
    assert not state.stopped
    due = of((*play.then.first_duties, *play.then.last_duties))
    assert play.then.odd.intersection(due)


def test_two_faults_are_right_only_when_both_are_told_mended_and_proved_again():
    play = two()
    state = told_and_mended(play, on(play, State(), *PROVING))
    state = told_and_mended(play, state)
    state = on(play, state, *of(play.then.first_duties), "energise", *of(play.then.last_duties), "certify")
    assert ending(play, state).verdict == "right"
    assert marked(play, state).passed
    replay = replayed(play, state)
    assert replay.used >= replay.fewest >= 2


def test_nothing_tells_of_the_second_fault_before_the_first_is_mended():
    play = two()
    state = on(play, State(), *PROVING, *dead_tests(play))
    named, said = name(state, play.fault)
    _, repaired = act(play, named, "repair")
    single = exercise(play.circuit, play.fault, tuple(each.fault for each in play.suspects), play.tests)
    assert (name(state, play.fault)[1], act(single, named, "repair")[1]) == (said, repaired)
    assert play.then.fault.say not in said + repaired
    assert ending(play, named) == ending(single, named)


def test_the_second_fault_is_not_signed_for():
    play = two()
    state = told_and_mended(play, on(play, State(), *PROVING))
    state = on(play, state, *of(play.then.first_duties), "energise")
    if not state.stopped:
        state = on(play, state, *of(play.then.last_duties), "certify")
    assert state.stopped.endswith(("with a fault in", "after the repair")) or "before the dead tests" in state.stopped
    left = told_and_mended(play, on(play, State(), *PROVING))
    assert ending(play, left).verdict == "second left"
    assert marked(play, left).mark == "not finished"
    assert "another was behind it" in str(end_page(play, left, ending(play, left)).blocks)


def test_the_second_fault_named_on_a_guess_is_no_pass():
    play = two()
    state = told_and_mended(play, on(play, State(), *PROVING))
    state = on(play, name(state, play.then.fault)[0], "repair")
    state = on(play, state, *of(play.then.first_duties), "energise", *of(play.then.last_duties), "certify")
    assert ending(play, state).verdict == "unproved"


@pytest.mark.parametrize("when", ["load", "move", "wait"])
def test_a_fault_that_comes_and_goes_shows_only_under_its_condition(when):
    play = coming_and_going(when)
    assert play.complaint == tale(when)
    state = on(play, State(), *PROVING)
    for other in {"move", "wait"} - {when}:
        calm = on(play, state, other, *dead_tests(play))
        assert all(step.value == play.sound[step.test] for step in calm.steps if step.test is not None)
    state = on(play, State(), *(["load"] if when == "load" else []), *PROVING)
    state = on(play, state, *([] if when == "load" else [when]), *dead_tests(play))
    read = {step.test: step.value for step in state.steps if step.test is not None}
    assert [suspect.fault for suspect in left_of(play, read)] == [play.fault]
    assert any(value != play.sound[n] for n, value in read.items())


@pytest.mark.parametrize("when", ["load", "move", "wait"])
def test_it_is_passed_when_it_is_proved_again_under_its_condition(when):
    play = coming_and_going(when)
    warm, moved = (["load"], []) if when == "load" else ([], [when])
    first, last = of(play.first_duties), of(play.last_duties)
    state = on(play, State(), *warm, *PROVING, *moved, *dead_tests(play))
    state = on(play, name(state, play.fault)[0], "repair")
    cold = on(play, state, "wait" if when != "wait" else "move", *first, "energise", *last, "certify")
    assert ending(play, cold).verdict == "left out"
    assert "nothing tested again under its condition" in marked(play, cold).why
    proved = on(play, state, *moved, *first, "energise", *warm, *last, "certify")
    assert ending(play, proved).verdict == "right"


def test_no_fault_found_is_never_signed():
    play = coming_and_going("wait")
    state = on(play, State(), *PROVING, *of(play.first_duties), "energise", *of(play.last_duties))
    assert not state.stopped
    after, said = act(play, state, "certify")
    assert "never signed as good" in said
    assert not after.finished
    assert ending(play, after).verdict == "not found"


def test_a_place_named_from_readings_that_showed_nothing_is_a_guess():
    play = coming_and_going("move")
    state = on(play, State(), *PROVING, *dead_tests(play))
    state = on(play, name(state, play.fault)[0], "repair", "move")
    state = on(play, state, *of(play.first_duties), "energise", *of(play.last_duties), "certify")
    assert ending(play, state).verdict == "unproved"


def test_what_is_moved_by_hand_is_dead_and_what_is_loaded_is_on():
    play = coming_and_going("move")
    assert act(play, State(), "move")[0].under == ""
    assert act(play, on(play, State(), "isolate"), "load")[0].under == ""
    state = on(play, State(), *PROVING, "move", *of(play.first_duties))
    assert state.under == "move"


@pytest.mark.parametrize("shape", SHAPES)
def test_two_faults_and_those_that_come_and_go_are_of_the_last_level(shape):
    for level in (1, 2):
        for seed in range(FIRST_SEED, FIRST_SEED + 6):
            play = played(shape, level, seed)
            assert play.then is None
            assert not play.when


def test_a_load_that_is_left_in_or_a_supply_hides_nothing():
    circuit = drawn("radial", 4, 4, Random(3).random)
    everything = suspects_on_site(circuit)
    tests = (*schedule(circuit), *further(circuit), *on_site(circuit), *further_on_site(circuit))
    for kind in ("appliance-left-in", "supply-reversed", "load-leaks"):
        fault = next(fault for fault in everything if fault.kind == kind)
        assert hidden_behind(circuit, fault, everything, tests, Random(1).random) is None
