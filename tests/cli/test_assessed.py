"""Eleven things that an assessor would not accept of an exercise in fault finding, each tried from the keyboard."""

import pytest

from quizzer.circuit.game.replay import ending
from quizzer.circuit.testing.schedule import LEAST
from quizzer.pages.diagnosis_end import end_page
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay
from quizzer.workflows.faults.diagnosing import played
from tests.circuit.players import walked
from tests.cli.running import ran

DEAD = "isolate; lock; prove indicator; prove dead; prove indicator; disconnect"
ROWS = 24 - 2  # a prompt takes two


def typed(monkeypatch, shape, seed, *lines, level=3):
    """What is on the screen after the lines."""
    text = "".join(f"{line}\n" for line in lines)
    found = ran(monkeypatch, "diagnose", "--shape", shape, "--level", str(level), "--seed", str(seed), typed=text)
    assert found.code == 0, found.err
    return " ".join(found.out.split())


@pytest.mark.parametrize("proving", [["isolate", "lock", "prove", "disconnect"], [DEAD]])
def test_an_open_protective_conductor_that_was_never_proved_is_not_energised(monkeypatch, proving):
    repair = ("test 2 14-16", "name", "3", "1", "repair", "test 14", "energise", "certify")
    screen = typed(monkeypatch, "radial", 7, "look", *proving, *repair)
    assert "RIGHT" not in screen
    assert "STOPPED FOR SAFETY" in screen
    assert ("no continuity of the protective conductor" in screen) is (proving == [DEAD])


@pytest.mark.parametrize(
    ("shape", "seed", "lines"),
    [
        ("radial", 61, ("test 2-8", "test 16-18", "name", "6", "1", "repair", "test 2 16-18", "energise", "certify")),
        ("ring", 28, ("test 27 14 12", "name", "3", "3", "repair", "test 4 12 19-21", "energise", "certify")),
    ],
)
def test_nothing_is_certified_without_the_tests_of_a_certificate(monkeypatch, shape, seed, lines):
    screen = typed(monkeypatch, shape, seed, DEAD, *lines)
    assert "RIGHT" not in screen
    assert "Minor works" not in screen
    assert "before the dead tests had passed after the repair" in screen


def test_a_lost_neutral_is_not_energised_and_ends_without_a_certificate(monkeypatch):
    first = typed(monkeypatch, "three-phase", 10, "test 6", "q")
    assert "STOPPED" not in first
    assert "Loads come off first" in first
    energised = typed(monkeypatch, "three-phase", 10, "look", DEAD, "test 2-5; lines", "energise", "test 6-8")
    assert "no voltage at the incoming terminals" in energised
    assert "256" not in energised
    families = list(dict.fromkeys(each.fault.family for each in played("three-phase", 3, 10).suspects))
    number = families.index("the combined protective and neutral conductor is open in the supply to the board") + 1
    left = typed(
        monkeypatch,
        "three-phase",
        10,
        "look; isolate; lock; prove indicator; incoming; prove indicator",
        "name",
        str(number),
        "call",
    )
    assert "RIGHT: found with the loads off, and left to the network operator" in left
    assert "Minor works" not in left


def test_a_ring_that_another_ring_feeds_is_not_shown_as_dead(monkeypatch):
    screen = typed(monkeypatch, "ring", 49, "isolate; lock; prove indicator; prove dead", "isolate", "disconnect")
    assert "NOT DEAD" in screen
    assert "something else feeds it" in screen
    assert "terminals that the indicator had shown to be live" in screen


@pytest.mark.parametrize(
    ("shape", "seed", "complaint"),
    [
        ("ring", 8, "Nothing seems wrong"),
        ("ring", 24, "Nothing seems wrong"),
        *(("radial", seed, "Nothing seems wrong") for seed in (61, 78, 107, 119)),
        ("cooker", 177, "Nothing seems wrong"),
        ("lighting", 43, "Nothing seems wrong"),
        ("ring", 3, "Nothing seems wrong"),
        ("radial", 10, "It tripped once, on a wet day"),
        ("three-phase", 5, "It tripped once, on a wet day"),
        ("radial", 9, "DANGER"),
    ],
)
def test_no_tale_contradicts_its_fault(monkeypatch, shape, seed, complaint):
    screen = typed(monkeypatch, shape, seed, "look", "q")
    assert f"The customer: “{complaint}" in screen
    assert "No burn mark" not in screen


def test_leakage_that_trips_is_only_there_where_an_rcd_is():
    for seed in range(30):
        play = played("three-phase", 3, seed)
        rcd = any(test.uses == "rcd" for test in play.tests)
        assert rcd is (play.circuit.supply.earthing == "TT")
        assert rcd or "trip" not in play.complaint.lower()


def test_the_trades_order_is_not_marked_down(monkeypatch):
    screen = typed(monkeypatch, "ring", 28, DEAD, "test 4", "ir", "q", "replay")
    assert "Ring end to end, protective conductor: " in screen
    assert "Better here" not in screen


def test_a_guess_does_not_win(monkeypatch):
    tests = "test 2-18; ir; energise; zs; rcd; certify"
    screen = typed(monkeypatch, "ring", 28, DEAD, "name", "3", "3", "repair", tests)
    assert "FOUND WITHOUT PROOF" in screen
    assert "RIGHT" not in screen


def test_lights_and_a_motor_have_a_loop_and_an_earth_that_was_off_is_proved_again(monkeypatch):
    for shape in ("lighting", "two-way", "three-phase"):
        assert any(test.uses == "loop" for test in played(shape, 3, 1).tests)
    screen = typed(monkeypatch, "radial", 7, "isolate all", DEAD, "earth off", "earth on")
    assert "continuity of the protective conductor is to be proved again" in screen


def whole(play):
    """All that can be done of an exercise, in an order that is safe."""
    proving = ("isolate all", "lock", *("prove indicator", "prove dead", "prove indicator") * 2, "disconnect")
    true = next(n for n, each in enumerate(play.suspects) if each.fault == play.fault)
    first, last = ([n for duty in duties for n in duty.tests] for duties in (play.first_duties, play.last_duties))
    live = [n for n in play.allowed if play.tests[n].instrument.live and play.tests[n].uses != "incoming"]
    dead = [n for n in play.allowed if n not in live]
    to_live = [] if play.dead_shows else [*first, "energise", *live, *proving]
    return [*proving, *dead, *to_live, ("name", true), "repair", *first, "energise", *last, "certify"]


@pytest.mark.parametrize("shape", ["ring", "radial", "cooker", "lighting", "two-way", "intermediate", "three-phase"])
def test_the_verdict_and_the_certificate_stay_on_a_screen(shape):
    for seed in range(8):
        play = played(shape, 3, seed)
        state = walked(play, whole(play))
        canvas = Canvas(Look(80))
        lay(canvas, end_page(play, state, ending(play, state)))
        assert state.finished, (seed, state.stopped)
        assert any("RIGHT" in line for line in canvas.lines), (seed, play.fault.say)
        assert len(canvas.lines) <= ROWS, (seed, len(canvas.lines))


def test_what_was_left_connected_is_no_alteration(monkeypatch):
    """A record of results, and no certificate; the load of a shower or a hob is what such a one draws."""
    play = played("cooker", 3, 22)
    assert play.fault.kind == "appliance-left-in"
    assert 5 < play.fault.size < 30
    tests = ("test 2-8; ir", "name", "13", "repair", "cpc; ir; energise; zs; rcd; certify")
    screen = typed(monkeypatch, "cooker", 22, DEAD, *tests)
    assert "RIGHT" in screen
    assert "Nothing was altered: no certificate belongs to it" in screen
    assert "Minor works" not in screen


def test_insulation_that_has_failed_is_found_by_splitting_the_circuit(monkeypatch):
    play = played("radial", 3, 10)
    assert play.fault.say.startswith("low insulation between line and earth at socket ")
    number = int(play.fault.say.rpartition(" ")[2])
    families = list(dict.fromkeys(each.fault.family for each in play.suspects))
    family = families.index("low insulation between line and earth at one place") + 1
    lines = ("name", str(family), str(number), "repair", "cpc; ir; energise; zs; rcd; certify")
    screen = typed(monkeypatch, "radial", 10, DEAD, "cpc; r1rn; ir; split", *lines)
    assert "RIGHT: found and told from all else" in screen
    guessed = typed(monkeypatch, "radial", 10, DEAD, "cpc; r1rn; ir", *lines)
    assert "FOUND WITHOUT PROOF" in guessed


def test_standing_leakage_holds_what_low_insulation_passes():
    """230 V over 0.10 megohm are 2.3 mA, at a right angle to the 1.8 mA of capacitances: 2.9 mA, worked by hand."""
    from math import hypot

    play = played("ring", 3, 6)
    at = next(n for n, test in enumerate(play.tests) if test.uses == "leakage")
    assert play.fault.kind == "low-line-earth"
    assert play.sound[at] == pytest.approx(1.8)
    assert play.true[at] == pytest.approx(hypot(1.8, 2.3), rel=0.06)
    assert LEAST == 1e6


def test_a_stop_does_not_tell_the_fault_and_is_begun_again(monkeypatch):
    screen = typed(monkeypatch, "radial", 7, "isolate; lock; ir", "again", "look", "isolate", "lock", "q")
    ended, again = screen.split("It begins anew", 1)
    assert "STOPPED FOR SAFETY" in ended
    assert "The fault:" not in ended
    assert "Locked off" in again


@pytest.mark.parametrize(
    ("says", "told"),
    [
        ("lock off", "There is nothing to lock"),
        ("prove", "`prove indicator` (on its proving unit) or `prove dead`"),
        ("prove dead", "Isolate and lock first"),
        ("energize", "The circuit is on already"),
        ("isolte", "Did you mean `isolate`?"),
        ("insulaton", "Did you mean `insulation`?"),
        ("test 99", "Tests have the numbers"),
        ("zs at 77", "No test is called 'zs at 77'"),
        ("help", "What can be typed"),
        ("name loose line", "1 A loose joint in the line between the board and socket 1"),
        ("name gremlin", "No fault is called gremlin"),
    ],
)
def test_words_of_the_trade_are_understood(monkeypatch, says, told):
    assert told in typed(monkeypatch, "radial", 7, says, "q")


@pytest.mark.parametrize(
    ("says", "count", "group"),
    [
        ("ir", 3, "insulation at 500 V"),
        ("ir 250", 3, "insulation at 250 V"),
        ("R1+R2", 6, "line and protective conductor linked at the board"),
        ("r1r2 at 3", 1, "line and protective conductor linked at the board"),
        ("zs at 3", 1, "earth fault loop"),
        ("zs", 1, "earth fault loop"),
        ("rcd", 1, "RCD at its rated residual current"),
    ],
)
def test_tests_are_asked_for_by_what_they_are_called(says, count, group):
    from quizzer.cli.trade_words import understood

    play = played("radial", 3, 7)
    order = understood(play, says)
    assert len(order.tests) == count
    assert {play.tests[n].group for n in order.tests} == {group}
