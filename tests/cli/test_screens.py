"""Whole screens, held to recorded ones. QUIZZER_ACCEPT=1 records anew; look at the difference before committing it."""

import os
from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.sitting import small_bank

GOLDEN = Path(__file__).parent.parent / "golden"
CASES = {
    "show": (("show", "principles/first/divider#3"), ""),
    "show-solution": (("show", "principles/first/divider#3", "--solution"), ""),
    "show-own-numbers": (("show", "principles/first/divider", "--given", "U=24", "--given", "R_1=0.035 kohm"), ""),
    "show-order-plain": (("show", "safety/first/prove-test-prove#2", "--solution", "--plain"), ""),
    "show-plain": (("show", "principles/first/divider#3", "--solution", "--plain"), ""),
    "topics": (("topics",), ""),
    "study": (("study", "--count", "3", "--exam", "2026-12-14"), "A1\n\n?\nabc\n7 A\nB3\n\nABCD\n2\nd\nbad book\n\n"),
    "study-other-answer": (("study", "--count", "1", "--topic", "circuits"), "A\nsure\n<\nB\n?\n1\n\nq\n"),
    "study-stopped": (("study", "--count", "3"), "s\nB2\nq\n"),
    "study-nothing-typed": (("study", "--count", "3"), ""),
}
FIXED = ("--now", "2026-11-25T07:00+00:00", "--seed", "1")


@pytest.mark.parametrize("name", sorted(CASES))
def test_a_screen_is_as_recorded(name, tmp_path, monkeypatch):
    args, typed = CASES[name]
    bank = small_bank(tmp_path / "bank")
    store = ("--store", str(tmp_path / "s.db"), *FIXED) if args[0] == "study" else ()
    found = ran(monkeypatch, *args, "--bank", str(bank), *store, typed=typed)
    assert found.code == 0, found.err
    assert max(map(len, found.out.split("\n"))) <= 80
    recorded = GOLDEN / f"{name}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(found.out, encoding="utf-8")
    assert found.out == recorded.read_text(encoding="utf-8")


@pytest.mark.parametrize("columns", [80, 60, 40])
def test_a_record_sheet_is_a_table_at_every_width(columns, monkeypatch):
    found = ran(monkeypatch, "show", "faults/diagnosis/ring-open-or-low#3", columns=columns)
    assert max(map(len, found.out.split("\n"))) <= columns
    recorded = GOLDEN / f"show-sheet-{columns}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(found.out, encoding="utf-8")
    assert found.out == recorded.read_text(encoding="utf-8")


def test_a_terminal_that_cannot_write_ohm_gets_words(tmp_path, monkeypatch):
    """A Windows terminal with code page 437 or 850 has no ohm sign or no square root."""
    bank = small_bank(tmp_path / "bank")
    for encoding in ("cp437", "cp850", "ascii", "cp1252"):
        found = ran(
            monkeypatch, "show", "principles/first/divider#3", "--solution", "--bank", str(bank), encoding=encoding
        )
        assert found.code == 0
        assert "ohms" in found.out
        assert "?" not in found.out.replace("read?", "").replace("first?", "")


@pytest.mark.parametrize(("variable", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_plain_is_chosen_where_colour_or_drawing_is_unwanted(monkeypatch, variable, value):
    from quizzer.cli.screen import look_of

    monkeypatch.setenv(variable, value)
    import sys

    assert look_of(sys.__stdout__).plain


def test_sixty_columns_are_enough():
    from quizzer.pages.question import question_page, solution
    from quizzer.question.making import make
    from quizzer.render.terminal.canvas import Canvas, Look
    from quizzer.render.terminal.laying import add_blocks, lay
    from tests.banktext import ORDER, TEMPLATE, entry

    for text in (TEMPLATE, ORDER):
        page = Canvas(Look(width=60))
        question = make(entry(text), 3)
        lay(page, question_page(question, "Inspection, testing and certificates", "question 1 of 10"))
        add_blocks(page, [*solution(question)])
        assert max(map(len, page.lines)) <= 60
