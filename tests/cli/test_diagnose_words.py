"""What is typed in a diagnosis and how it is answered: kinds of test, and words that no test of the circuit has."""

import re
from dataclasses import replace

import pytest

from quizzer.circuit.game.exercise import Site, State
from quizzer.circuit.game.proving import prove_dead
from quizzer.cli.diagnose_names import faults_called
from quizzer.cli.trade_words import understood
from quizzer.workflows.faults.diagnosing import played
from tests.cli.running import ran


@pytest.mark.parametrize("typed", ["voltage", "interlocks", "coils", "rungs"])
def test_a_test_that_the_circuit_has_not_is_never_worded_as_something_absent(typed):
    mend = understood(played("ring", 2, 250), typed).mend
    assert mend == f"No test is called '{typed}' on this circuit: `tests` lists them."


def test_a_place_that_is_not_there_is_told_with_its_test():
    mend = understood(played("ring", 2, 250), "r1r2 at 99").mend
    assert mend == "No test is called 'r1r2 at 99' on this circuit: `tests` lists them."


@pytest.mark.parametrize("shape", ["start-stop", "forward-reverse", "star-delta"])
def test_contacts_are_all_contacts_at_rest(shape):
    play = played(shape, 2, 7)
    found = {play.tests[n].group for n in understood(play, "contacts").tests}
    assert found == {"fuse and break contacts at rest", "make contacts at rest"}


@pytest.mark.parametrize("shape", ["start-stop", "forward-reverse", "star-delta"])
def test_what_is_due_of_contacts_is_told_by_words_of_the_list_of_tests(shape):
    play = played(shape, 2, 7)
    due = {duty.say for duty in play.first_duties if duty.stage == "at rest"}
    assert due
    assert due <= {test.group for test in play.tests}


def test_what_is_suggested_is_a_test_of_this_circuit():
    ring, starter = played("ring", 2, 250), played("start-stop", 2, 7)
    assert "rung" not in understood(ring, "continuity").mend
    assert understood(ring, "rungs continuity").mend != understood(starter, "rungs continuity").mend
    assert "`rung continuity`" in understood(starter, "rungs continuity").mend


def test_insulation_and_crossed_ends_are_known_by_their_trade_names():
    ring = played("ring", 2, 250)
    assert understood(ring, "insulation test").tests == understood(ring, "ir").tests != ()
    found = {ring.tests[n].group for n in understood(ring, "figure of eight").tests}
    assert found == {f"line and {other} ends cross-connected" for other in ("neutral", "protective conductor")}
    assert "No test is called 'figure of eight'" in understood(played("radial", 2, 7), "figure of eight").mend


@pytest.mark.parametrize("shape", ["ring", "lighting", "intermediate", "three-phase", "star-delta"])
def test_every_fault_is_called_by_its_listed_words_with_or_without_article_and_capitals(shape):
    faults = [suspect.fault for suspect in played(shape, 3, 5).suspects]
    for fault in faults:
        bare = fault.say.removeprefix("the ").removeprefix("a ").removeprefix("an ")
        for typed in (fault.say, fault.say.capitalize(), bare.upper(), f"{fault.say}."):
            assert fault in faults_called(faults, typed.split())
            assert {each.say for each in faults_called(faults, typed.split())} <= {
                each.say for each in faults if each.family == fault.family
            }


@pytest.mark.parametrize(
    ("shape", "typed", "words"),
    [
        ("ring", "reversed", "exchanged"),
        ("ring", "swapped", "exchanged"),
        ("radial", "polarity", "exchanged"),
        ("three-phase", "crossed", "exchanged"),
        ("ring", "high resistance", "loose|bad joint"),
        ("star-delta", "high resistance", "high resistance"),
        ("lighting", "borrowed neutral", "neutral of another circuit"),
        ("ring", "nuisance", "leak|under half"),
    ],
)
def test_trade_words_find_the_faults_that_they_mean_and_all_of_those(shape, typed, words):
    faults = [suspect.fault for suspect in played(shape, 3, 5).suspects]
    found = faults_called(faults, typed.split())
    assert found == [each for each in faults if re.search(words, f"{each.say} {each.family}")]
    assert found


def test_a_word_of_several_faults_lists_them_by_number_and_names_none(monkeypatch):
    found = ran(
        monkeypatch, "diagnose", "--shape", "ring", "--level", "3", "--seed", "5", typed="name reversed\n\nq\n\n"
    )
    assert "  1 Line and neutral are exchanged at one point" in found.out
    assert "  2 Line and protective conductor are exchanged at one point" in found.out
    assert "No fault named." in found.out


def test_a_fault_typed_as_it_is_listed_is_named_at_once(monkeypatch):
    fault = next(s.fault for s in played("lighting", 3, 42).suspects if "loose joint in the neutral" in s.fault.say)
    typed = f"name {fault.say[0].upper()}{fault.say[1:]}\nq\n\n"
    found = ran(monkeypatch, "diagnose", "--shape", "lighting", "--level", "3", "--seed", "42", typed=typed)
    assert "No fault is called" not in found.out
    assert "Which number?" not in found.out


@pytest.mark.parametrize("shape", ["three-phase", "start-stop"])
def test_every_line_is_named_where_three_are_shown_live(shape):
    play = replace(played(shape, 2, 7), site=Site(mislabelled=True))
    state = State(off="way", locked=True, indicator=True)
    state, said = prove_dead(play, state)
    assert state.shown == "live"
    assert all(words in said for words in ("L1 to L2", "L2 to L3", "L3 to L1", "L1, L2 and L3 to neutral 230 V"))
