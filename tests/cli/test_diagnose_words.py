"""What is typed in a diagnosis and how it is answered: kinds of test, and words that no test of the circuit has."""

import pytest

from quizzer.cli.trade_words import understood
from quizzer.workflows.faults.diagnosing import played


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
