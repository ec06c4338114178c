"""Diagnoses played: unsafe order stops them, all is proved again after a repair, a guess is no pass."""

import re
from random import Random

import pytest

from quizzer.circuit.game.actions import act, name
from quizzer.circuit.game.advice import best_way, duty_tests, fewest
from quizzer.circuit.game.exercise import Site, State, alike, exercise, left_of
from quizzer.circuit.game.histories import history
from quizzer.circuit.game.replay import ending, replayed
from quizzer.circuit.game.taking import take
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.suspects import KINDS, suspects, suspects_on_site
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.on_site import on_site
from quizzer.circuit.testing.proving import Fed
from quizzer.circuit.testing.schedule import schedule
from quizzer.workflows.faults.diagnosing import played

FINAL = [shape for shape in SHAPES if shape not in STARTERS]
DEAD = ("isolate", "lock", "prove indicator", "prove dead", "prove indicator")
BOARD_DEAD = ("isolate all", *DEAD[1:])
SAFE = (*DEAD, "disconnect")


def a_play(shape="radial", kind="open-earth", seed=5):
    """An exercise with a fault of the kind."""
    circuit = drawn(shape, 1, 6, Random(seed).random)
    everything = suspects(circuit)
    fault = next(fault for fault in everything if fault.kind == kind)
    return exercise(circuit, fault, everything, (*schedule(circuit), *further(circuit), *on_site(circuit)))


def on(play, state, *actions):
    """The state after more actions by name, and tests by number or by the beginning of their id (those of the kind)."""
    for each in actions:
        if each in ACTED:
            state, _ = act(play, state, each)
            continue
        for n in [each] if isinstance(each, int) else numbers(play, each):
            state, _ = take(play, state, n)
    return state


ACTED = {*SAFE, "look", "isolate all", "earth off", "earth on", "repair", "call", "energise", "certify"}


def after(play, *actions):
    """The state after actions from the beginning."""
    return on(play, State(), *actions)


def numbers(play, start):
    """The tests whose id begins so."""
    found = [n for n, test in enumerate(play.tests) if test.id.startswith(start)]
    assert found, start
    return found


def first_tests(play):
    """Every compulsory dead test, in the trade's order."""
    return [n for duty in play.first_duties for n in duty.tests]


def last_tests(play):
    """Every compulsory live test."""
    return [n for duty in play.last_duties for n in duty.tests]


def named(play, state, fault=None):
    """The state with the fault named and repaired."""
    return on(play, name(state, fault or play.fault)[0], "repair")


def found(play, *actions):
    """The state with the fault proved by every dead test, named and repaired."""
    return named(play, on(play, after(play, *SAFE, *actions), *(n for n in play.allowed)))


@pytest.mark.parametrize(
    ("actions", "why"),
    [
        ((1,), "dead test"),
        (("isolate", 1), "dead test"),
        (("isolate", "lock", 1), "dead test"),
        (("isolate", "lock", "prove indicator", "prove dead", 1), "dead test"),
        (("disconnect",), "opened terminals"),
        (("isolate", "lock", "prove indicator", "prove dead", "disconnect"), "opened terminals"),
        (("earth off",), "earth was taken off"),
        ((*BOARD_DEAD, "earth off", "energise"), "earth off"),
        ((*SAFE, 1, "energise"), "before the dead tests had passed"),
        (("loop",), "live test"),
    ],
)
def test_unsafe_order_stops_the_exercise(actions, why):
    assert why in after(a_play(), *actions).stopped


@pytest.mark.parametrize("shape", SHAPES)
def test_nothing_is_energised_before_each_compulsory_test_has_passed(shape):
    play = a_play(
        shape, "sequence-reversed" if shape == "three-phase" else "low-line-earth" if shape in FINAL else "stop-open"
    )
    state = found(play)
    for duty in play.first_duties:
        rest = [n for n in first_tests(play) if n != duty.tests[-1]]
        stopped = on(play, state, *rest, "energise").stopped
        assert stopped.startswith("the circuit was energised before the dead tests had passed after the repair: no ")
        assert duty.say in stopped
    assert not on(play, state, *first_tests(play), "energise").stopped


def test_the_compulsory_tests_are_those_of_the_trade_in_its_order():
    """The order of BS 7671:2018 Part 6, from memory: protective conductors, (ring,) polarity with R1+R2, insulation."""
    said = {shape: [duty.say for duty in a_play(shape, "open-earth").first_duties] for shape in FINAL}
    insulation = [f"insulation at 500 V, {pair}" for pair in ("line to neutral", "line to earth", "neutral to earth")]
    assert said["radial"] == ["continuity of the protective conductor", "polarity", *insulation]
    assert said["ring"] == [*said["radial"][:2], "continuity of the ring", *insulation]
    assert said["three-phase"][:2] == said["radial"][:2]
    assert said["three-phase"][-1] == "voltage at the incoming terminals"
    live = {shape: [duty.say for duty in a_play(shape, "open-earth").last_duties] for shape in FINAL}
    assert live["radial"] == live["ring"] == ["earth fault loop", "RCD"]
    assert live["lighting"] == [*live["radial"], "switching"]
    assert "phase sequence" in live["three-phase"]
    failed = [a_play("radial", kind).last_duties[-1].say for kind in ("standing-leakage", "low-line-earth")]
    assert failed == ["standing leakage", "RCD"]


@pytest.mark.parametrize("shape", SHAPES)
def test_a_compulsory_test_of_continuity_reads_closed_in_a_sound_circuit(shape):
    play = played(shape, 3, 1)
    earth = play.first_duties[0].tests
    assert earth
    assert all(play.sound[n] < 10 for n in earth)


def test_insulation_counts_only_after_continuity():
    play = a_play()
    state = on(play, found(play), "ir-LN", "ir-LE", "ir-NE", "LE-")
    assert "insulation at 500 V, line to earth" in on(play, state, "energise").stopped
    assert "as proof it counts after continuity" in take(play, found(play), numbers(play, "ir-LE")[0])[1]
    assert not on(play, state, "ir-", "energise").stopped


def test_a_dead_test_from_before_the_repair_does_not_count():
    play = a_play("radial", "rcd-late")
    state = on(play, after(play, *SAFE, *first_tests(play), "energise", "rcd"), *SAFE)
    assert not on(play, state, "energise").stopped
    assert "before the dead tests had passed after the repair" in on(play, named(play, state), "energise").stopped


def test_a_test_that_failed_does_not_count():
    play = a_play()
    assert (
        "continuity of the protective conductor" in on(play, after(play, *SAFE, *first_tests(play)), "energise").stopped
    )


def test_an_earth_that_was_off_is_proved_again():
    play = a_play("radial", "rcd-late")
    state = after(play, "isolate all", *SAFE, *first_tests(play), "earth off", "earth on")
    assert "continuity of the protective conductor" in on(play, state, "energise").stopped
    assert not on(play, state, "LE-", "energise").stopped


def test_loads_come_out_before_anything_is_read():
    play = a_play()
    assert "Disconnect first" in take(play, after(play, *DEAD), 1)[1]


def test_a_whole_diagnosis_is_right_and_replayed():
    play = a_play()
    state = after(play, *SAFE, "LE-", "LN-")
    state = on(play, named(play, state), *first_tests(play), "energise", *last_tests(play), "certify")
    assert ending(play, state).verdict == "right"
    replay = replayed(play, state)
    assert replay.used == len(numbers(play, "LE-") + numbers(play, "LN-"))
    assert 1 <= replay.fewest <= replay.used
    assert all(one.after <= one.before for one in replay.steps)


@pytest.mark.parametrize("left", ["loop", "rcd"])
def test_what_is_signed_without_a_live_test_is_not_passed(left):
    play = a_play()
    rest = [n for n in last_tests(play) if not play.tests[n].id.startswith(left)]
    state = on(play, found(play), *first_tests(play), "energise", *rest, "certify")
    end = ending(play, state)
    assert end.verdict == "left out"
    assert [left in say.lower() for say in end.left_out] == [True]


def test_the_right_fault_without_the_readings_that_tell_it_is_no_pass():
    play = a_play()
    guessed = on(play, named(play, after(play, *SAFE)), *first_tests(play), "energise", *last_tests(play), "certify")
    assert ending(play, guessed).verdict == "unproved"
    half = named(play, after(play, *SAFE, "LE-"))  # an open line reads the same
    half = on(play, half, *first_tests(play), "energise", *last_tests(play), "certify")
    assert ending(play, half).verdict == "unproved"
    assert ending(play, half).left > 1


def test_the_wrong_fault_does_not_pass_the_retest():
    play = a_play()
    other = next(each.fault for each in play.suspects if each.fault.kind == "low-line-earth")
    state = named(play, after(play, *SAFE, "LE-"), other)
    assert "over range" in take(play, state, min(play.odd))[1]
    assert "continuity of the protective conductor" in on(play, state, *first_tests(play), "energise").stopped


def test_a_fault_that_only_live_tests_show_is_handed_over_only_when_mended():
    play = a_play("radial", "rcd-late")
    other = next(each.fault for each in play.suspects if each.fault.kind == "standing-leakage")
    state = after(play, *SAFE, *first_tests(play), "LN-", "energise", *last_tests(play), "leakage", *SAFE)
    wrong = on(play, named(play, state, other), *first_tests(play), "energise")
    assert not wrong.stopped
    assert "handed over" in on(play, wrong, "certify").stopped
    right = on(play, named(play, state), *first_tests(play), "energise", *last_tests(play), "certify")
    assert ending(play, right).verdict == "right"


def test_a_load_that_is_taken_out_alters_nothing_and_only_insulation_is_proved_again():
    play = a_play("cooker", "appliance-left-in")
    state = on(play, found(play), "ir-", "energise", *last_tests(play), "certify")
    assert ending(play, state).verdict == "right"


@pytest.mark.parametrize("shape", SHAPES)
def test_the_history_is_of_the_shape_and_not_of_the_fault(shape):
    plays = [played(shape, 3, seed) for seed in range(8)]
    assert all(len(play.history) == 3 for play in plays)
    pool = {history(shape, Random(seed).random) for seed in range(400)}
    assert len(pool) > 300
    said = " ".join(line for history in pool for line in history)
    assert not re.search(r"\b(open|loose|exchanged|insulation|bridged|neutral|earth|spur|RCD)\b", said)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_best_way_is_in_the_trades_order_and_proves_the_fault(shape):
    for seed in range(6):
        play = played(shape, 3, seed)
        way = best_way(play)
        assert all(n in play.allowed for n in way)
        circuit = [play.tests[n] for n in way if not play.tests[n].id.startswith("origin-")]
        live = [test.instrument.live and test.uses not in {"incoming", "operating"} for test in circuit]
        assert live == sorted(live)
        if True in live:
            assert {n for duty in play.first_duties for n in duty.tests if duty.stage != "mended"} <= set(way)
        left = left_of(play, {n: play.true[n] for n in (0, *way)})
        assert all(alike(play, each.fault) for each in left)
        assert fewest(play) <= len(way)


def test_a_compulsory_test_is_never_marked_down_and_one_out_of_order_is():
    play = a_play("ring", "low-line-earth")
    state = after(play, *SAFE, *first_tests(play))
    replay = replayed(play, named(play, state))
    assert [step.better for step in replay.steps if step.better] == []
    early = replayed(play, after(play, *SAFE, "NE-1"))
    assert [step.better for step in early.steps if step.better] == ["ring end to end, protective conductor"]
    assert numbers(play, "ends-")[0] in duty_tests(play)


def test_a_suspect_of_another_size_is_not_ruled_out_by_the_size_that_was_drawn():
    """A joint in the line and one in the protective conductor read alike at the far end, each at a size of its own."""
    play = a_play("radial", "loose-joint")
    far = numbers(play, "LE-")[-1]
    left = {each.fault.family for each in left_of(play, {0: play.true[0], far: play.true[far]})}
    assert {"a loose joint in the line at one place", "a loose joint in the protective conductor at one place"} <= left


# ---- proving dead ----------------------------------------------------------------------------------------


def sited(play, **site):
    """The exercise on a site that lets one down."""
    from dataclasses import replace

    return replace(play, site=Site(**site))


def test_an_indicator_is_proved_before_it_is_believed():
    state = after(a_play(), "isolate", "lock")
    same, said = act(a_play(), state, "prove dead")
    assert same == state
    assert "Prove the indicator first" in said


def test_an_indicator_that_fails_in_use_is_found_only_by_proving_it_again():
    play = sited(a_play(), weak_indicator=True, mislabelled=True)
    state, said = act(play, after(play, "isolate", "lock", "prove indicator"), "prove dead")
    assert "0 V" in said
    assert "dead test" in on(play, state, "LE-").stopped
    again, said = act(play, state, "prove indicator")
    assert "failed in between" in said
    assert not again.proved
    assert act(play, on(play, again, "prove indicator"), "prove dead")[1].startswith("Line to neutral 230 V")


def test_a_chart_that_names_another_way_is_found_by_proving_dead():
    play = sited(a_play(), mislabelled=True)
    live, said = act(play, after(play, "isolate", "lock", "prove indicator"), "prove dead")
    assert "NOT DEAD" in said
    assert "shown to be live" in on(play, live, "disconnect").stopped
    assert "shown to be live" in on(play, live, "LE-").stopped
    assert not on(play, live, *SAFE, "LE-").stopped


def crossed_rings(core):
    """A ring of which the second leg of a core is exchanged with another ring's."""
    circuit = drawn("ring", 4, 4, Random(3).random)
    everything = suspects(circuit)
    fault = next(fault for fault in everything if fault.kind == "rings-crossed" and f" {core} " in fault.say)
    return exercise(circuit, fault, everything, (*schedule(circuit), *further(circuit), *on_site(circuit)))


def test_a_ring_that_another_ring_feeds_is_live_until_the_whole_board_is_off():
    play = crossed_rings("line")
    live, said = act(play, after(play, "isolate", "lock", "prove indicator"), "prove dead")
    assert "NOT DEAD" in said
    assert "something else feeds it" in act(play, live, "isolate")[1]
    board = on(play, live, "isolate all", *DEAD[1:])
    assert board.proved
    assert not on(play, board, "disconnect", "other-ring").stopped


@pytest.mark.parametrize("play", [crossed_rings("neutral"), a_play("lighting", "borrowed-neutral")])
def test_a_neutral_of_another_circuit_is_live_once_it_is_parted(play):
    state = after(play, *DEAD)
    assert state.proved
    parted, said = act(play, state, "disconnect")
    assert "230 V to earth" in said
    assert not parted.proved
    assert "shown to be live" in on(play, parted, 1).stopped
    assert on(play, parted, "isolate all", *DEAD[1:], "disconnect").loads_out


@pytest.mark.parametrize("kind", sorted(set(KINDS) - {"rings-crossed", "borrowed-neutral"}))
def test_nothing_else_is_fed_from_elsewhere(kind):
    for shape in SHAPES:
        circuit = drawn(shape, 8, 8, Random(2).random)
        for fault in suspects(circuit, (kind,))[:2]:
            assert exercise(circuit, fault, (fault,), schedule(circuit)).fed == Fed(line=False, neutral=False)


# ---- the lost neutral ------------------------------------------------------------------------------------


def lost_neutral(earthing):
    """A board on such a supply without its neutral."""
    for seed in range(60):
        play = a_play("three-phase", "lost-neutral", seed)
        if play.circuit.supply.earthing == earthing:
            return play
    raise AssertionError(earthing)


@pytest.mark.parametrize("earthing", ["TN-S", "TN-C-S", "TT"])
def test_a_lost_neutral_is_found_with_the_loads_off_and_left_to_the_network_operator(earthing):
    play = lost_neutral(earthing)
    asked, said = take(play, after(play, "look"), numbers(play, "L1-N")[0])
    assert not asked.stopped
    assert "Loads come off first" in said
    state = after(play, "isolate", "lock", "prove indicator", "look", "in-", "prove indicator")
    shown = {play.tests[n].place: play.true[n] for n in numbers(play, "in-")}
    assert shown["L1 to N"] == 0
    assert shown["L1 to earth"] == pytest.approx(0 if earthing == "TN-C-S" else 230)
    called = on(play, name(state, play.fault)[0], "repair")
    assert ending(play, called).verdict == "right"
    assert called.finished
    assert not called.repaired


def test_a_board_without_its_neutral_is_not_energised():
    play = lost_neutral("TN-S")
    state = after(play, *SAFE, *first_tests(play))
    assert "voltage at the incoming terminals" in on(play, state, "energise").stopped
    assert not lost_neutral("TN-S").tests[numbers(play, "L1-N")[0]].id.startswith("in")


def test_the_operator_is_called_with_the_board_off_and_finds_a_sound_supply_sound():
    play = lost_neutral("TT")
    assert "still on" in on(play, name(State(), play.fault)[0], "call").stopped
    other = a_play("three-phase", "single-phasing")
    lost = next(each.fault for each in other.suspects if each.fault.kind == "lost-neutral")
    state, said = act(other, name(after(other, "isolate", "lock"), lost)[0], "call")
    assert "sound" in said
    assert not state.finished


@pytest.mark.parametrize("level", [1, 2, 3])
@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_can_be_played_at_every_level(shape, level):
    for seed in (3, 203):
        play = played(shape, level, seed)
        assert play.fault in suspects_on_site(play.circuit)
        assert play == played(shape, level, seed)


# ---- insulation that has failed somewhere ----------------------------------------------------------------


@pytest.mark.parametrize("shape", ["ring", "radial", "cooker", "lighting"])
def test_insulation_that_has_failed_is_found_by_splitting_the_circuit(shape):
    """Low while what has failed is on the board's side of the split, sound from there on: the point lies between."""
    circuit = drawn(shape, 4, 4, Random(5).random)
    everything = suspects_on_site(circuit)
    tests = (*schedule(circuit), *further(circuit), *on_site(circuit))
    lows = [fault for fault in everything if fault.kind == "low-line-earth"]
    assert len(lows) == len(circuit.points)
    for k, fault in enumerate(lows, 1):
        play = exercise(circuit, fault, everything, tests)
        low = [play.true[n] < 1e6 for n in numbers(play, "split-") if play.tests[n].place == "line to earth"]
        assert low == [at >= k for at in range(1, len(circuit.points))]
        left = left_of(play, {n: play.true[n] for n in play.allowed})
        assert [each.fault for each in left] == [fault]


def test_without_a_split_the_place_of_failed_insulation_is_a_guess():
    circuit = drawn("radial", 5, 5, Random(5).random)
    everything = suspects_on_site(circuit)
    fault = next(fault for fault in everything if fault.kind == "low-line-earth")
    play = exercise(circuit, fault, everything, (*schedule(circuit), *further(circuit), *on_site(circuit)))
    whole = on(play, after(play, *SAFE), *first_tests(play))
    assert ending(play, named(play, whole)).verdict == "unproved"
    assert ending(play, named(play, on(play, whole, "split-1"))).verdict == "unfinished"
