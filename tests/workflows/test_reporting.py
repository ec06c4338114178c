"""What reports say of people and groups, beyond the recorded screens."""

import time
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizzer.marks.answers import KEY
from quizzer.pages.group import group_page
from quizzer.pages.items import items_blocks
from quizzer.pages.person import person_page
from quizzer.workflows.papers.group_result import MINUTES, SharedMistake, bins, group_report, teaching
from quizzer.workflows.papers.items_result import items_report
from quizzer.workflows.papers.person_result import person_report
from quizzer.workflows.papers.reporting import sheets_of, verdict_on
from tests.papersat import NAMES, sat


@pytest.fixture(scope="module")
def sixteen(tmp_path_factory):
    """Sixteen people, two parallel forms."""
    return sat(tmp_path_factory.mktemp("sixteen"))


def text_of(blocks):
    return " ".join(str(block) for block in blocks)


def test_marks_add_up(sixteen):
    for one in sixteen.sheets:
        found = person_report(sixteen, one)
        assert found.mark == sum(part.right for part in found.sections) == sum(each.right for each in found.topics)
        assert found.mark + len(found.wrong) == found.questions
    assert sum(each.people for each in group_report(sixteen).bins) == 16


def test_an_all_right_section_fails_a_mark_that_is_enough_and_is_named(sixteen):
    held = {name: (section, right, asked) for name, section, right, asked in group_report(sixteen).held_back}
    assert held["Dilys"] == ("Safety-critical", 1, 2)
    (one,) = sheets_of(sixteen, "Dilys")
    assert one.mark >= sixteen.paper.pass_mark
    assert not verdict_on(sixteen, one).passed
    words = text_of(person_page(sixteen.paper, [person_report(sixteen, one)], [one]).blocks)
    assert "FAILED SECTION: “Safety-critical” must be all right, and 1 of 2 are." in words


def test_safety_critical_mistakes_come_first(sixteen):
    (one,) = sheets_of(sixteen, "Priya")
    critical = [each.safety_critical for each in person_report(sixteen, one).wrong]
    assert critical == sorted(critical, reverse=True)


def test_the_group_counts_people_not_answers(sixteen):
    found = group_report(sixteen).mistakes[0]
    made = {answer.person for one in sixteen.sheets for answer in one.answers if answer.chosen == "no-power-factor"}
    assert (found.words, found.people, found.met) == ("left out the power factor", len(made), 16)


def test_own_numbers_are_brought_to_one_table(tmp_path):
    """Everybody has the same entries with letters and numbers of their own: one block, options by their mistake."""
    found = items_report(sat(tmp_path, people=NAMES))
    (block,) = found.blocks
    assert block.reliability.marks.people == 16
    assert block.reliability.kr20 is not None
    sums = [figures for _, question, figures in block.items if question.topic == "principles"]
    assert {choice.name for one in sums for choice in one.choices} == {
        KEY,
        "no-power-factor",
        "power-factor-wrong-way",
        "doubled",
        "halved",
    }
    assert all(choice.offered <= 16 for one in sums for choice in one.choices)
    assert "no-power-factor" in text_of(items_blocks(found))


@given(st.lists(st.integers(0, 60), min_size=1, max_size=200), st.integers(1, 60))
def test_every_mark_is_in_one_bin_and_one_begins_at_the_pass_mark(marks, pass_mark):
    found = bins(marks, pass_mark, 60)
    assert sum(each.people for each in found) == len(marks)
    assert pass_mark in {each.low for each in found}
    assert len(found) <= 20
    assert all(one.high + 1 == other.low for one, other in pairwise(found))


@dataclass
class Named:
    """As much of a question as a lesson asks for."""

    id: str


@given(st.lists(st.tuples(st.integers(1, 30), st.booleans(), st.integers(0, 5)), max_size=12))
def test_lessons_take_twenty_minutes_and_teach_a_question_once(rows):
    shared = [SharedMistake("x", people, 40, Named(str(which)), "", "", critical) for people, critical, which in rows]
    found = teaching(shared)
    assert sum(minutes for _, minutes in found) == (MINUTES if rows else 0)
    assert len({one.question.id for one, _ in found}) == len(found) <= 5
    assert all(minutes >= 3 for _, minutes in found)


MISLEADING = (
    "mastered",
    "percentile",
    "radar",
    "calibrated",
    "red",
    "amber",
    "best in",
    "rank 1",
    "probability of passing",
)


def test_no_page_says_what_the_figures_cannot(sixteen):
    pages = [
        text_of(group_page(sixteen.paper, group_report(sixteen)).blocks),
        text_of(items_blocks(items_report(sixteen))),
        *(text_of(person_page(sixteen.paper, [person_report(sixteen, one)], [one]).blocks) for one in sixteen.sheets),
    ]
    for page in pages:
        assert not [words for words in MISLEADING if f" {words} " in page.lower()]
        assert "KR-20" not in page or "interval" in page
    for page in pages[2:]:
        assert page.count("; too few to rank") == 3  # every topic of three or four questions
        assert "does not foretell another examination" in page


def test_people_near_the_line_stand_by_name(sixteen):
    near = [each.person for each in group_report(sixteen).near]
    assert near == sorted(near)


def test_two_hundred_scripts_are_soon_understood(tmp_path):
    """The figures alone, on a paper of ten questions: a sixth of what 60 take, and a sixth of two seconds."""
    names = tuple(f"P{at:03d}" for at in range(200))
    whole = sat(tmp_path, letters="A", names=names)
    begun = time.process_time()
    report, group = items_report(whole), group_report(whole)
    assert time.process_time() - begun < 2 / 6
    assert report.blocks[0].reliability.decisions is not None
    assert group.people == 200


def test_sections_follow_the_paper(sixteen):
    assert [part.section.id for part in verdict_on(sixteen, sixteen.sheets[0]).sections] == [
        "safety-critical",
        "sums",
        "testing",
    ]
    assert Path(sixteen.paper.id).name == sixteen.paper.id  # it can stand in a file's name
