"""A paper for one person without a tutor: made, timed, marked, explained; the next one asks other entries."""

import re
import shutil
from types import SimpleNamespace

import pytest

from quizzer.blocks.text import said
from quizzer.pages.alone import compared
from quizzer.store import open_store
from quizzer.workflows.papers.kept_questions import kept_question, kept_questions
from tests.cli.running import ran
from tests.sitting import SHARED, small_bank

PLAN = """
title = "Three cards"
minutes = 30
pass_mark = 2

[[section]]
id = "all"
title = "All of it"
questions = 3
topics = ["regulations"]
"""
DONE = "\n" + "A\n" * 3 + "submit\nyes\n"


@pytest.fixture
def sit(monkeypatch, tmp_path):
    """`sit three` over one topic of the shipped bank, with this typed."""
    bank = small_bank(tmp_path / "bank")
    shutil.copytree(SHARED / "regulations", bank / "regulations")
    (bank / "blueprints").mkdir()
    (bank / "blueprints" / "three.toml").write_text(PLAN, encoding="utf-8")
    place = ("--bank", str(bank), "--store", str(tmp_path / "s.db"), "--now", "2026-11-25T07:00")
    return lambda typed, *args, seed=1: ran(
        monkeypatch, "sit", "three", "--seed", str(seed), *place, *args, typed=typed
    )


def papers(tmp_path):
    """What each paper kept asked, oldest first."""
    with open_store(str(tmp_path / "s.db")) as store:
        return [_asked(paper) for paper in store.papers.every()]


def _asked(paper):
    """What a paper asked: each entry, and of a family the case as well."""
    kept = kept_questions(paper)
    questions = [kept_question(paper, kept, item) for item in paper.forms[0].items]
    return {(each.id, each.case) for each in questions}


def test_a_plan_makes_times_marks_and_explains_a_paper(sit):
    done = sit(DONE)
    assert done.code == 0, done.err
    shown = " ".join(done.out.split())
    for words in (
        "30 minutes",
        "1 of 3, 0 answered, 30 min left",
        "3 of 3, 2 answered",
        "right; the pass mark is 2",
        "could not say what to expect",
        "Wrong answers, and why",
        "What to study",
    ):
        assert words in shown, words
    assert "Your tutor marks it" not in done.out


def test_the_next_paper_asks_other_entries_or_cases_while_the_bank_has_them(sit, tmp_path):
    sit(DONE, seed=1)
    sit(DONE, seed=2)
    first, second = papers(tmp_path)
    assert len(first) == len(second) == 3
    assert not first & second


def test_what_was_left_is_gone_on_with(sit, tmp_path):
    assert "Kept, not handed in: 1 of 3 questions answered" in " ".join(sit("\nA\nq\n").out.split())
    again = sit("\nA\nA\nsubmit\nyes\n", seed=9).out
    assert "You go on where you stopped" in again
    assert "of 3 right" in again
    assert len(papers(tmp_path)) == 1


def test_what_was_handed_in_and_not_marked_is_marked_the_next_time(sit, tmp_path, monkeypatch):
    with monkeypatch.context() as broken:
        broken.setattr("quizzer.workflows.papers.alone.mark_own", lambda *_: (_ for _ in ()).throw(KeyboardInterrupt))
        assert sit(DONE).code == 130
    assert re.search(r"\d of 3 right", sit("").out)
    assert len(papers(tmp_path)) == 1


def test_a_form_is_refused_and_a_plan_that_there_is_not_is_no_paper(sit, monkeypatch):
    refused = sit("", "--form", "A")
    assert (refused.code, refused.err.count("\n")) == (2, 1)
    unknown = ran(monkeypatch, "sit", "wiring-regulation", "--store", "sqlite://")
    assert (unknown.code, "did you mean 'wiring-regulations', a plan" in unknown.err) == (1, True)


@pytest.mark.parametrize(
    ("mark", "words"), [(36, "36 lies within"), (50, "50 lies within"), (35, "35 lies below"), (51, "51 lies above")]
)
def test_a_mark_is_held_to_the_interval_from_before(mark, words):
    before = SimpleNamespace(span=(36, 50))
    assert words in said(compared(mark, before), lambda each: each.verb)
    assert "36 to 50" in said(compared(mark, before), lambda each: each.verb)
