"""Who was absent, or left nearly everything out, is in no mean and neither passed nor failed."""

import csv
import io

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.marks.answers import AnswerRow
from quizzer.pages.group import group_page
from quizzer.pages.person import person_page
from quizzer.workflows.papers.group_result import group_report
from quizzer.workflows.papers.items_result import items_report
from quizzer.workflows.papers.person_result import person_report
from quizzer.workflows.papers.reporting import gather, sheets_of
from quizzer.workflows.papers.result_tables import people_csv
from tests.pages.reading import on_terminal
from tests.papersat import bank, paper, scripts

ABSENT = "Zoe"


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    return Shelf(bank(tmp_path_factory.mktemp("apart")))


@pytest.fixture(scope="module")
def there(shelf):
    made = paper(shelf)
    return made, scripts(shelf, made)


def with_absent(shelf, there, *people):
    made, rows = there
    blank = ("",) * len(made.forms[0].items)
    return gather(shelf, made, (*rows, *(AnswerRow(name, "A", blank) for name in people)))


def test_the_group_is_those_who_were_there(shelf, there):
    without, with_one = gather(shelf, *there), with_absent(shelf, there, ABSENT)
    assert group_report(with_one) == group_report(without)._replace(apart=((ABSENT, 0),))
    assert items_report(with_one) == items_report(without)
    told = " ".join(on_terminal(group_page(with_one.paper, group_report(with_one))))
    assert "set apart because they answered fewer than one in ten questions zoe 0 answered" in told


def test_their_own_page_says_so_and_says_nothing_of_a_true_mark(shelf, there):
    sat = with_absent(shelf, there, ABSENT)
    (one,) = sheets_of(sat, ABSENT)
    told = " ".join(on_terminal(person_page(sat.paper, [person_report(sat, one)], [one])))
    assert "set apart 0 of 10 questions answered neither passed nor failed" in told
    assert "not passed" not in told
    assert "true mark" not in told


def test_the_table_of_people_says_it_in_place_of_a_verdict(shelf, there):
    rows = csv.DictReader(io.StringIO(people_csv(with_absent(shelf, there, ABSENT)).decode("utf-8-sig")))
    told = {row["name"]: (row["passed"], row["near the line"]) for row in rows}
    assert told.pop(ABSENT) == ("set apart", "no")
    assert {passed for passed, _ in told.values()} <= {"yes", "no"}


def test_a_group_that_was_not_there_is_told_in_one_sentence(shelf, there):
    made, _ = there
    sat = with_absent(shelf, (made, ()), ABSENT, "Yan")
    for report in (group_report, items_report):
        with pytest.raises(Refused, match="nobody answered as much as one in ten questions"):
            report(sat)


def test_the_standard_deviation_told_is_that_of_a_sample(shelf, there):
    """By hand from its definition: the root of the summed squares over one fewer than the people."""
    sat = gather(shelf, *there)
    marks = [each.mark for each in sat.sheets]
    mean = sum(marks) / len(marks)
    by_hand = (sum((mark - mean) ** 2 for mark in marks) / (len(marks) - 1)) ** 0.5
    told = " ".join(on_terminal(group_page(sat.paper, group_report(sat))))
    assert group_report(sat).marks.sample_deviation == pytest.approx(by_hand)
    assert f"standard deviation {by_hand:.1f}".replace(".", " ") in told
    forms = {each.form: each for each in items_report(sat).forms}
    on_a = [each.mark for each in sat.sheets if each.form == "A"]
    mean = sum(on_a) / len(on_a)
    assert forms["A"].deviation == pytest.approx((sum((mark - mean) ** 2 for mark in on_a) / (len(on_a) - 1)) ** 0.5)
