"""An entry that is signed off says who checked it against what, wherever it is told where a question comes from."""

import re
from datetime import timedelta

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.pages.question import about_page, source_line
from quizzer.question.replies import Reply
from quizzer.render.typst.paper_words import scheme_words
from quizzer.workflows.bank.showing import question_named
from quizzer.workflows.bank.signing import sign_off
from quizzer.workflows.papers.finding import Making
from tests.cli.running import ran
from tests.exam import bank_of_cards, paper_of
from tests.sitting import MORNING, Sitting, small_bank

ENTRY, CHECKED = "circuits/first/series-current", "checked by Farah against A4"
UNCHECKED = "from memory, not checked against the book"


@pytest.fixture
def root(tmp_path):
    found = small_bank(tmp_path / "bank")
    path = found / "circuits" / "first.toml"
    path.write_text(re.sub(r'evidence *= *"[a-z]+"', 'evidence = "memory"', path.read_text()))
    return found


def test_the_solution_on_screen_says_who_checked_it(root, monkeypatch):
    shown = ("show", ENTRY, "--solution", "--bank", str(root))
    assert UNCHECKED in " ".join(ran(monkeypatch, *shown).out.split())
    assert ran(monkeypatch, "signoff", ENTRY, "--by", "Farah", "--edition", "A4", "--bank", str(root)).code == 0
    told = " ".join(ran(monkeypatch, *shown).out.split())
    assert CHECKED in told
    assert "not checked" not in told


def test_a_changed_entry_is_unchecked_again(root):
    sign_off(Shelf(root), ENTRY, "Farah", "A4", MORNING)
    assert question_named(Shelf(root), ENTRY).signed == "Farah against A4"
    path = root / "circuits" / "first.toml"
    path.write_text(path.read_text().replace('"the current"', '"the flow"'))
    assert question_named(Shelf(root), ENTRY).signed == ""


def test_a_session_says_it_under_the_answer_and_when_asked_where_from(root):
    sign_off(Shelf(root), ENTRY, "Farah", "A4", MORNING - timedelta(days=1))
    sitting = Sitting(root)
    session = sitting.session("circuits")
    question = session.next_question().question
    assert question.id == ENTRY
    assert CHECKED in source_line(question).words
    assert any(CHECKED in str(block) for block in about_page(question).blocks)
    sitting.store.close()


def test_a_damaged_ledger_does_not_stop_a_session(root):
    (root / "signoffs.toml").write_text("[[signoff]\n")
    sitting = Sitting(root)
    session = sitting.session("circuits")
    asked = session.next_question()
    assert asked.question.signed == ""
    assert session.answer(asked, Reply(asked.question.key), None).mark.right
    sitting.store.close()


def test_the_mark_scheme_of_a_paper_says_it_for_the_questions_as_they_were_made(tmp_path):
    root = bank_of_cards(tmp_path / "bank")
    paper = paper_of(Shelf(root))
    entry = paper.forms[0].items[0].entry
    sign_off(Shelf(root), entry, "Farah", "A4", MORNING)

    def solved():
        made = Making(Shelf(root), paper).of(paper.forms[0])
        return scheme_words(paper, paper.forms[0], made, "standard")["solved"]

    assert [each["evidence"] == CHECKED for each in solved()] == [item.entry == entry for item in paper.forms[0].items]
