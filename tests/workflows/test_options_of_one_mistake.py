"""A question with several wrong options of one mistake: each is counted by itself, in every medium."""

import csv
import io

import pytest

from quizzer.marks.answers import AnswerRow
from quizzer.pages.group import group_page
from quizzer.pages.items import items_page
from quizzer.paper.record import Form, Item, Paper, Section
from quizzer.workflows.bank.showing import question_named
from quizzer.workflows.papers.group_result import group_report
from quizzer.workflows.papers.items_result import items_report
from quizzer.workflows.papers.reporting import gather
from quizzer.workflows.papers.result_tables import items_csv
from tests.pages.reading import on_terminal, read_back, words_of
from tests.shippedbank import SHELF

NAME = "faults/diagnosis/cooker-best-test#7361"
BESIDE = "faults/diagnosis/radial-places#1"
ANSWERS = dict(zip(("Ada", "Ben", "Cara", "Dov", "Ed"), "CD-CC", strict=True))


@pytest.fixture(scope="module")
def asked():
    return question_named(SHELF, NAME)


@pytest.fixture(scope="module")
def sat(asked):
    other = question_named(SHELF, BESIDE)  # answered by everybody: who answers nothing is set apart
    items = tuple(Item(each.id, each.seed, each.head.digest, "all", each.key) for each in (asked, other))
    sections = (Section("all", "All", 2, all_right=False),)
    form = Form("A", "A", "", items)
    paper = Paper("one", "One", "one", "A4", "2026-11-26", 1, 10, 1, (), sections, (form,))
    rows = [AnswerRow(name, "A", ("" if letter == "-" else letter, other.key)) for name, letter in ANSWERS.items()]
    return gather(SHELF, paper, rows)


def test_the_question_is_of_that_kind(asked):
    slips = [option.slip for option in asked.options if option.slip]
    assert len(set(slips)) < len(slips)


def expected(asked):
    return {label: (sum(letter == label for letter in ANSWERS.values()), label == asked.key) for label in asked.labels}


def test_the_table_counts_every_letter(sat, asked):
    table = csv.DictReader(io.StringIO(items_csv(items_report(sat)).decode("utf-8-sig")))
    rows = [row for row in table if row["entry"] == NAME]
    assert {row["option"]: (int(row["chosen"]), row["is key"] == "yes") for row in rows} == expected(asked)
    assert {row["left out"] for row in rows} == {"1"}


@pytest.mark.parametrize("medium", ["terminal", "paper", "web"])
def test_the_page_counts_every_letter_in_every_medium(sat, asked, medium):
    told = ", ".join(f"{label}{'*' if key else ''} {people}" for label, (people, key) in expected(asked).items())
    page = items_page(sat.paper, items_report(sat))
    read = on_terminal(page) if medium == "terminal" else read_back(page, medium)
    assert " ".join(words_of(f"{told}, none 1")) in " ".join(read)


def test_a_person_counts_once_in_the_mistake_behind_them(sat, asked):
    wrong = [letter for letter in ANSWERS.values() if letter not in {"-", asked.key}]
    assert sum(one.people for one in group_report(sat).mistakes) == len(wrong)
    assert "of 5" in str(group_page(sat.paper, group_report(sat)).blocks)
