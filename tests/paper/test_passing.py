"""Passing: the mark, and the sections that must be all right."""

import pytest

from quizzer.paper.passing import verdict
from quizzer.paper.record import Form, Item, Paper, Section

SECTIONS = (
    Section("safe", "Safety", 2, all_right=True),
    Section("rest", "The rest", 2, all_right=False),
    Section("none", "Empty", 0, all_right=True),
)
ITEMS = tuple(Item(f"a/b/{at}", 1, "", section, "A") for at, section in enumerate(("safe", "safe", "rest", "rest")))
FORM = Form("A", "A", "", ITEMS)
PAPER = Paper("p", "P", "b", "", "2026-11-25", 1, 60, 3, (), SECTIONS, (FORM,))


@pytest.mark.parametrize(
    ("rights", "reaches", "sections_ok"),
    [
        ((1, 1, 1, 1), True, True),
        ((1, 1, 1, 0), True, True),
        ((1, 0, 1, 1), True, False),
        ((1, 1, 0, 0), False, True),
        ((0, 0, 0, 0), False, False),
    ],
)
def test_a_paper_is_passed_by_its_mark_and_its_sections(rights, reaches, sections_ok):
    found = verdict(PAPER, FORM, [bool(right) for right in rights])
    assert (found.right, found.questions) == (sum(rights), 4)
    assert (found.reaches_pass_mark, found.sections_ok) == (reaches, sections_ok)
    assert found.passed is (reaches and sections_ok)


def test_only_sections_that_the_form_has_are_marked():
    found = verdict(PAPER, FORM, [True, False, True, True])
    assert [(each.section.id, each.right, each.asked, each.failed) for each in found.sections] == [
        ("safe", 1, 2, True),
        ("rest", 2, 2, False),
    ]
