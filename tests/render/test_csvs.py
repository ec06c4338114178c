"""Tables that spreadsheets open: quoted, and with nothing in them that would be run."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizzer.paper.record import Form
from quizzer.render.csv.answer_table import answer_table
from quizzer.render.csv.csvs import csv_bytes, safe, unguarded
from quizzer.render.csv.question_table import question_table
from tests.render.forms import HOSTILE, card, paper, sum_


def rows(content):
    """The cells of a CSV file."""
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\n"])
def test_a_cell_that_a_spreadsheet_would_run_becomes_text(start):
    assert safe(f"{start}1+1") == f"'{start}1+1"
    assert unguarded(safe(f"{start}1+1")) == f"{start}1+1"


def test_numbers_stay_numbers():
    assert [safe(each) for each in (-3, -0.5, 7, None, True)] == ["-3", "-0.5", "7", "", "True"]


@given(st.lists(st.lists(st.text(st.characters(exclude_characters="\x00", codec="utf-8")), min_size=2, max_size=2)))
def test_any_cells_read_back(cells):
    read = rows(csv_bytes(["a", "b"], cells))
    assert [[unguarded(cell) for cell in row] for row in read[1:]] == [
        [unguarded(cell) for cell in row] for row in cells
    ]
    assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r", "\n")) for row in read for cell in row)


def test_lines_end_as_the_standard_says_and_quotes_are_doubled():
    assert csv_bytes(["a"], [['say "x", then\ny']]) == b'\xef\xbb\xbfa\r\n"say ""x"", then\ny"\r\n'


def test_the_answer_table_has_a_row_for_everybody_with_numbers_of_their_own():
    made = paper([card()])
    forms = tuple(Form("A", f"A{at:02d}", name, made.forms[0].items) for at, name in enumerate(("Amina", "=Ben"), 1))
    assert rows(answer_table(made._replace(forms=forms))) == [
        ["name", "form", "answers"],
        ["Amina", "A01", ""],
        ["'=Ben", "A02", ""],
    ]


def test_the_question_table_has_a_row_a_question_with_its_key_and_mistakes():
    questions = [card(f"={HOSTILE}", "+why"), sum_()]
    made = paper(questions)
    heads, first, second = rows(question_table(made, made.forms[0], questions))
    told = dict(zip(heads, first, strict=True))
    assert told["question"] == f"'={HOSTILE}"
    assert told["section"] == "First part"
    assert told["key"] == questions[0].key
    assert told[f"option {questions[0].key}"] == "the current"
    assert told[f"mistake {questions[0].key}"] == ""
    assert [told[f"mistake {label}"] for label in "ABCD" if label != questions[0].key] == ["'+why"] * 3
    assert "U1 = U × R1 / R = " in dict(zip(heads, second, strict=True))["reason"]
