"""Diagnoses typed as they were once passed unsafely, or put on record untruly: what counts as off, and as proved."""

from dataclasses import replace

import pytest

from quizzer.circuit.game.advice import told_way
from quizzer.circuit.game.exercise import Site, State
from quizzer.circuit.game.paper import results
from quizzer.circuit.game.replay import ending
from quizzer.cli.trade_words import numbers_of
from quizzer.workflows.faults.diagnosing import played
from tests.circuit.players import walked
from tests.cli.running import ran

DEAD = ("lock", "prove indicator", "prove dead", "prove indicator")


def typed(monkeypatch, shape, level, seed, *lines):
    """The screen after these lines."""
    words = "".join(f"{line}\n" for line in lines)
    found = ran(monkeypatch, "diagnose", "--shape", shape, "--level", str(level), "--seed", str(seed), typed=words)
    assert found.code == 0, found.err
    return " ".join(found.out.split())


# ---- isolating switches nothing on -----------------------------------------------------------------------


@pytest.mark.parametrize("again", ["isolate", "isolate all"])
def test_a_board_that_is_off_stays_off_with_its_lock_its_proof_and_its_earth_off(monkeypatch, again):
    screen = typed(
        monkeypatch, "ring", 2, 641, "isolate all", *DEAD, *DEAD[1:], "earth off", "ze", again, "ze", "energise"
    )
    assert "The whole board is off already; it stays off. (board off, proved dead, EARTH OFF)" in screen
    assert "Loads come off first" not in screen
    assert "STOPPED FOR SAFETY: the circuit was energised with its earth off" in screen


def test_a_board_whose_neutral_is_lost_is_not_put_on_again_by_isolating_its_way(monkeypatch):
    screen = typed(monkeypatch, "radial", 2, 629, "isolate all", *DEAD, "earth off", "isolate", "lock", *DEAD[1:], "q")
    assert "LIVE" not in screen.partition("stays off.")[2]
    assert "(board off, proved dead, EARTH OFF)" in screen.partition("stays off.")[2]


def test_a_way_that_is_off_stays_off_and_the_earthing_conductor_stays_on_while_others_are_on(monkeypatch):
    screen = typed(monkeypatch, "radial", 2, 5, "isolate", *DEAD, "isolate", "earth off")
    assert "Its own way is off already; it stays off. (proved dead)" in screen
    assert "STOPPED FOR SAFETY: the earthing conductor was taken off while other circuits were on" in screen


# ---- the incoming terminals ------------------------------------------------------------------------------

LOST = ("name open between the cut-out", "call")  # its only name in the list
EACH = "test 55-57"


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        # As it was passed once: nothing proved, and line to neutral alone.
        (("lock; test 55", *LOST), "Prove the indicator first: one that has failed shows every circuit as dead."),
        (("lock; test 55", *LOST), "FOUND WITHOUT PROOF: voltage at the origin, line to neutral not read"),
        (("lock; prove indicator", "test 55", "prove indicator", *LOST), "PROOF: voltage at the origin, line to earth"),
        (("lock; prove indicator", EACH, *LOST), "PROOF: the indicator not proved after the incoming terminals."),
    ],
)
def test_a_lost_neutral_is_not_proved_by_half_of_its_readings(monkeypatch, lines, words):
    screen = typed(monkeypatch, "radial", 2, 629, "isolate all", *lines)
    assert words in screen
    assert "RIGHT" not in screen


def test_a_lost_neutral_is_proved_by_every_pair_and_the_indicator_before_and_after(monkeypatch):
    screen = typed(monkeypatch, "radial", 2, 629, "isolate all; lock; prove indicator", EACH, "prove indicator", *LOST)
    assert "RIGHT: found with the loads off, and left to the network operator" in screen
    one = typed(monkeypatch, "radial", 2, 629, "isolate all; lock; prove indicator", "test 55", "q")
    assert "0 V (counts once the indicator is proved again)" in one


def test_an_indicator_that_has_failed_shows_nothing_at_the_terminals_and_that_is_void():
    play = replace(played("radial", 2, 629), site=Site(weak_indicator=True))
    first = numbers_of("54 55 56")
    state = walked(play, ["isolate all", "lock", "prove indicator", *first])
    assert [step.value for step in state.steps if step.test] == [0, 0, 0]
    state = walked(play, ["isolate all", "lock", "prove indicator", *first, "prove indicator"])
    assert not any(step.test for step in state.steps)
    assert not state.passed.intersection(first)
    again = ["prove indicator", *first, "prove indicator", ("name", lost(play)), "call"]
    state = walked(play, ["isolate all", "lock", "prove indicator", *first, "prove indicator", *again])
    assert ending(play, state).verdict == "right"


def lost(play):
    """The number of the suspect."""
    return next(n for n, each in enumerate(play.suspects) if each.fault == play.fault)


# ---- a new RCD -------------------------------------------------------------------------------------------

REPAIRED = "isolate all; lock; prove indicator; prove dead; prove indicator; disconnect; repair"
LATE = (
    "isolate",
    *DEAD,
    "disconnect; r1r2; r1rn; ir; energise; zs; rcd; ramp; leakage; half",
    "name the rcd trips too late",
)


def handed_over(screen, ends, button):
    """It ends so, and what its paper says of the button goes with that."""
    assert f"{ends}: " in screen
    paper = screen.partition("Minor works certificate: an exercise")[2]
    assert (f"{button}: not proved." in paper) is (ends == "NOT PASSED")
    assert (f"{button}: trips" in paper) is (ends == "RIGHT")


@pytest.mark.parametrize(("last", "ends"), [("zs; rcd", "NOT PASSED"), ("zs; rcd; button", "RIGHT")])
def test_a_new_rcd_is_handed_over_with_its_test_button_tried_and_on_the_paper(monkeypatch, last, ends):
    screen = typed(monkeypatch, "radial", 2, 5, *LATE, REPAIRED, "r1r2; r1rn; ir; energise", last, "certify")
    handed_over(screen, ends, "Test button of the RCD")


MAIN = (
    "isolate all",
    *DEAD,
    "disconnect; r1r2; r1rn; ir; energise; zs; rcd; button; ramp; leakage; half; x5; main rcd",
    "name the main rcd trips too late",
)


@pytest.mark.parametrize(
    ("last", "ends"), [("zs; rcd; main rcd; button", "NOT PASSED"), ("zs; rcd; main rcd; main button", "RIGHT")]
)
def test_a_new_main_rcd_is_handed_over_with_its_own_test_button_tried(monkeypatch, last, ends):
    screen = typed(monkeypatch, "radial", 3, 259, *MAIN, REPAIRED, "r1r2; r1rn; ir; energise", last, "certify")
    handed_over(screen, ends, "Test button of the main RCD")


def test_the_button_of_a_main_rcd_is_numbered_last_and_there_is_none_without_one():
    assert played("radial", 3, 259).tests[-1].id == "push-main"
    assert "push-main" not in {test.id for test in played("radial", 2, 5).tests}


# ---- the record of a machine -----------------------------------------------------------------------------

FIRST = "cpc; lines; poles; contacts open; interlocks; settings; rungs; ir; energise"
SWITCH = ("name S1 is a switch that stays", REPAIRED, FIRST)


def record_of(screen):
    """The record and the verdict before it."""
    before, _, paper = screen.rpartition("Record of a repair to a machine: an exercise")
    return before.rpartition("How it ended")[2], paper


def test_the_time_in_star_that_is_missing_is_named_and_the_record_says_nothing_of_it(monkeypatch):
    verdict, paper = record_of(
        typed(monkeypatch, "star-delta", 3, 604, "operate; test 94", *SWITCH, "operate; certify")
    )
    assert "not proved: earth fault loop; time in star." in verdict
    assert "Operation: as it should work, 8 steps - " in paper
    assert "Operation: not" not in paper
    assert "Settings of F2: " in paper
    assert "Earth fault loop: not proved. - Time in star: not proved." in paper


def test_the_record_of_a_guess_names_what_was_not_proved(monkeypatch):
    verdict, paper = record_of(typed(monkeypatch, "star-delta", 3, 604, *SWITCH, "test 2", "certify"))
    assert "FOUND WITHOUT PROOF: your readings left" in verdict
    assert "Operation: not wholly proved. - Time in star: not proved." in paper


def test_what_was_measured_of_a_starter_has_its_own_head():
    assert {line.head for line in results(played("forward-reverse", 3, 665), State(passed=frozenset({78, 79})))} == {
        "settings of F2"
    }
    star = played("star-delta", 3, 604)
    (line,) = results(star, State(passed=frozenset({89, 90, 94})))
    assert (line.head, line.readings.count(",")) == ("settings of F2, time in star", 2)


# ---- words -----------------------------------------------------------------------------------------------


def test_metalwork_is_kept_off_only_where_it_hangs_on_the_neutral_and_the_loop_has_no_markup(monkeypatch):
    lines = ("isolate all", *DEAD, EACH, "prove indicator", "earth off; ze; earth on", *LOST)
    screen = typed(monkeypatch, "radial", 2, 629, *lines)
    assert "supply TT" in screen or "TT, Z" in screen
    assert "people keep off" not in screen
    assert "external loop Ze, earthing conductor off: " in screen
    assert "Z_e" not in screen


def test_a_repair_says_what_is_due_again(monkeypatch):
    screen = typed(monkeypatch, "star-delta", 3, 604, *SWITCH[:2], "q")
    assert "The whole starter is proved again, with its settings and its motor, in the order of first tests" in screen


# ---- what the replay advises -----------------------------------------------------------------------------


def test_where_nothing_works_the_incoming_terminals_are_the_way_and_not_marked_down(monkeypatch):
    screen = typed(monkeypatch, "radial", 2, 629, "isolate all", *DEAD, EACH, "prove indicator", *LOST, "replay")
    assert "Better here" not in screen
    assert "used to find it: 3. The fewest that could have told it, after a look: 3." in screen
    assert "In the trade's order, for whoever does not know the fault: voltage at the origin (3)." in screen


def test_a_machine_is_operated_in_its_users_order_and_nobody_begins_by_tripping_its_relay():
    play = played("forward-reverse", 3, 665)
    assert [play.tests[n].place for n in told_way(play)] == ["nothing pressed", "S1 held"]
    play = played("star-delta", 3, 604)
    assert [play.tests[n].id for n in told_way(play)] == [f"op-{n}" for n in range(6)]


# ---- the right part under a wrong name -------------------------------------------------------------------


def test_an_rcd_replaced_for_its_button_no_longer_fails_to_trip_and_is_not_found_all_the_same(monkeypatch):
    twice = "prove indicator; prove dead; prove indicator"  # the first indicator fails in use
    start = (
        "isolate; lock; prove indicator; prove dead; prove indicator",
        twice,
        "disconnect; r1r2; cpc; ir; energise",
    )
    wrong = ("rcd; button", "name the test button of the rcd is dead")
    last = ("r1r2; cpc; ir; energise", "zs; rcd; switching; button; certify")
    screen = typed(monkeypatch, "lighting", 2, 1515, *start, *wrong, REPAIRED, *last)
    assert "RCD at its rated residual current: no trip" in screen.partition("Repair: replace the RCD")[0]
    after = screen.partition("Repair: replace the RCD")[2]
    assert "RCD at its rated residual current: no trip" not in after
    assert "STOPPED" not in after
    assert "NOT FOUND" in after
