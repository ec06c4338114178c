"""The record sheets of fault finding: the readings of the stem as a table, on screens of every width and on paper."""

import re
from functools import cache

import pytest

from quizzer.bank.entries import Diagnose
from quizzer.blocks.text import DataTable
from quizzer.pages.question import question_page
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.render.html.fragments import fragment
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import add_blocks
from quizzer.render.typst.papers import paper_pdfs
from tests.pages.reading import words_of
from tests.render.forms import paper, words
from tests.shippedbank import SHELF

TALL = (("faults/diagnosis/intermediate-fault", 7), ("faults/diagnosis/intermediate-fault", 12))  # of many draws


@cache
def questions() -> tuple[Question, ...]:
    """Every question with a sheet, of two seeds of each entry."""
    entries = [entry for path in SHELF.files() for entry in SHELF.load(path).entries if isinstance(entry, Diagnose)]
    return tuple(made for entry in entries for seed in (1, 2) if (made := make(entry, seed)).sheet)


def laid(table: DataTable, width: int) -> list[str]:
    """The lines of a sheet without the empty ones around it."""
    canvas = Canvas(Look(width))
    add_blocks(canvas, [table])
    return [line for line in canvas.lines if line]


def test_the_parts_of_a_stem_are_the_stem():
    for question in questions():
        before, table, after, *seen = question.stem_parts
        assert seen == ([question.picture] if question.picture else [])
        assert f"{before}\n{question.sheet.text}\n{after}" == question.stem
        assert table is question.sheet.table


def test_a_table_says_what_its_lines_say():
    """Each group with its places and readings, in the same order; only the heads are the table's own."""
    for question in questions():
        cells = " ".join(cell for row in question.sheet.table.rows for cell in row)
        assert words_of(cells) == words_of(question.sheet.text)


@pytest.mark.parametrize("width", [80, 60, 40])
def test_no_line_is_longer_than_the_screen_and_no_reading_parts_from_its_unit(width):
    for question in questions():
        lines = laid(question.sheet.table, width)
        assert max(map(len, lines)) <= width
        readings = [row[-1] for row in question.sheet.table.rows]
        assert [line for line in lines if re.match(r"\s*(M?Ω|V|ms|mA)$", line)] == []
        apart = {reading for reading in readings if not any(reading in line for line in lines)}
        assert all(" " in reading and not reading[0].isdigit() for reading in apart)  # words may go on below


def test_a_sheet_is_at_most_twenty_four_lines():
    tall = [make(SHELF.find(entry), seed) for entry, seed in TALL]
    heights = {question.name: len(laid(question.sheet.table, 80)) for question in (*questions(), *tall)}
    assert {name: height for name, height in heights.items() if height > 24} == {}


def test_a_first_cell_stands_for_all_its_rows_on_the_web():
    question = next(each for each in questions() if "ring-every" in each.id)
    made = fragment(question_page(question, "Topic"))
    assert re.search(r'<tbody><tr><th scope="rowgroup" rowspan="2">Ring end to end</th><td>line, neutral</td>', made)
    assert made.count("<tr>") == len(question.sheet.table.rows) + 1


def test_paper_and_mark_scheme_have_the_sheet_as_a_table():
    question = next(each for each in questions() if "radial-places" in each.id)
    made = paper([question, question])
    row = next(row for row in question.sheet.table.rows if row[0] and row[1])
    for name, content in paper_pdfs(made, made.forms[0], [question, question]).items():
        if "answer-sheet" not in name:
            text = words(content)
            assert "Test Where Reading" in text, name
            assert f"{row[1]} {row[2]}" in text, name


def test_a_stem_without_a_sheet_is_one_part():
    question = questions()[0]._replace(sheet=None, picture=None)
    assert question.stem_parts == (question.stem,)
