"""The record of a paper reads back as it was, and a stranger's file is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizzer.errors import Refused
from quizzer.paper.record import Form, Item, Paper, Section, to_json
from quizzer.paper.record_reading import from_json

PAPER = Paper(
    "sample-1",
    "Sample",
    "sample",
    "A3",
    "2026-11-25",
    7,
    60,
    10,
    ("a ruler",),
    (Section("s", "S", 1, True),),
    (Form("A", "A", "", (Item("safety/first/one", 3, "abc", "s", "B"),)),),
)


def test_a_record_reads_back_as_it_was():
    assert from_json(to_json(PAPER), "x") == PAPER


@given(st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=40), st.integers(0, 10**6))
def test_any_title_and_seed_read_back(title, seed):
    paper = PAPER._replace(title=title, seed=seed)
    assert from_json(to_json(paper), "x") == paper


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{}",
        "[]",
        "null",
        "not json",
        '{"quizzer_paper": 1}',
        to_json(PAPER).replace('"forms"', '"shapes"'),
        to_json(PAPER).replace('"minutes": 60', '"minutes": "long"'),
        to_json(PAPER)[:-40],
    ],
)
def test_what_is_no_record_is_refused_in_a_sentence(text):
    with pytest.raises(Refused, match=r"paper\.json is not the record of a paper"):
        from_json(text, "paper.json")


def test_a_newer_record_is_refused_with_both_versions():
    with pytest.raises(Refused, match="another version of quizzer \\(3, not 2\\)"):
        from_json(to_json(PAPER).replace('"quizzer_paper": 2', '"quizzer_paper": 3'), "x")


def test_a_form_is_found_by_letter_or_serial_and_an_unknown_one_is_refused():
    assert PAPER.form("a").serial == "A"
    with pytest.raises(Refused, match="no form 'C'"):
        PAPER.form("C")
