"""Tables as people have them: every usual encoding and parting, workbooks, letters in one cell or a column each."""

import csv
import io
from contextlib import suppress

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.errors import Refused
from quizzer.workflows.papers.answer_cells import letters_in
from quizzer.workflows.papers.answer_table import read_table
from quizzer.workflows.papers.marking import mark_all
from quizzer.workflows.people.groups import fill_from
from quizzer.workflows.people.name_columns import register_layout
from quizzer.workflows.people.table_rows import columns, read_rows
from tests.exam import Room, keys_of, wrong_at

QUESTIONS = [str(number) for number in range(1, 8)]


@pytest.fixture
def room(tmp_path):
    return Room(tmp_path)


@pytest.fixture
def right(room):
    return keys_of(room.paper.forms[0])


def workbook(path, *sheets):
    """A workbook with these sheets of rows."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for number, rows in enumerate(sheets, 1):
        sheet = book.create_sheet(f"Sheet{number}")
        for row in rows:
            sheet.append(row)
    book.save(path)
    return path


def read(room, content, name="answers.csv"):
    """The answer table in a file of that content."""
    path = room.folder / name
    if isinstance(content, bytes):
        path.write_bytes(content)
    else:
        workbook(path, *content)
    return read_table(room.world, room.paper, room.making, path, add=False)


def taken(room, content, name="answers.csv"):
    """Names and answers of a table without a bad row."""
    table = read(room, content, name)
    assert table.bad == ()
    return [(one.name, one.form.serial, one.answers) for one in table.handed]


@pytest.mark.parametrize("sign", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252"])
def test_cells_parted_by_any_sign_in_any_encoding(room, right, sign, encoding):
    lines = [["name", "form", "answers"], ["Ada", "A", right], ["Ben", "B", keys_of(room.paper.forms[1])]]
    content = "\r\n".join(sign.join(line) for line in lines).encode(encoding)
    assert taken(room, content) == [("Ada", "A", right), ("Ben", "B", keys_of(room.paper.forms[1]))]


def test_a_column_for_each_question_with_empty_for_none(room, right):
    heads = ["Name", "Form", *(f"Q{number}" for number in QUESTIONS)]
    letters = [right[0].lower(), "", "-", ".", f" {right[4]} ", "–", right[6]]
    rows = [heads, ["Ada", "A", *letters]]
    expected = [("Ada", "A", f"{right[0]}---{right[4]}-{right[6]}")]
    assert taken(room, "\n".join(map(";".join, rows)).encode()) == expected
    assert taken(room, [rows], "answers.xlsx") == expected
    turned = [[*heads[:2], *heads[:1:-1]], [*rows[1][:2], *letters[::-1]]]
    assert taken(room, "\n".join(map(",".join, turned)).encode()) == expected


def test_somebody_without_any_letter_is_absent_in_both_layouts(room, right):
    one = read(room, f"name,form,answers\nAda,A,{right}\nBen,B,\n".encode())
    two = read(room, f"name,form,{','.join(QUESTIONS)}\nAda,A,{','.join(right)}\nBen,B{',' * 7}\n".encode())
    assert (one.absent, two.absent) == (("Ben",), ("Ben",))
    assert [each.answers for each in (*one.handed, *two.handed)] == [right, right]


def test_columns_that_nobody_asked_for_are_passed_over_with_a_note(room, right):
    text = f"Learner No;Name;E-mail;Form;Answers;Seat\n17;Ada;ada@x;A;{right};4\n"
    table = read(room, text.encode())
    assert [one.answers for one in table.handed] == [right]
    assert table.notes == ("Columns passed over: Learner No, E-mail, Seat.",)


def test_a_guessed_encoding_is_told_and_the_name_is_right(room, right):
    room.store.add_trainee("t9", "Zoë", room.clock())
    table = read(room, f"name,form,answers\nZoë,A,{right}\n".encode("cp1252"))
    assert [one.name for one in table.handed] == ["Zoë"]
    assert table.notes == ("Not UTF-8: read as Windows text (cp1252). Look at the letters with accents.",)


def test_a_title_above_the_heads_and_a_sign_named_in_the_first_line(room, right):
    assert taken(room, f"sep=;\nname;form;answers\nAda;A;{right}\n".encode()) == [("Ada", "A", right)]
    table = read(room, [[["Class of Thursday"], [], ["name", "form", "answers"], ["Ada", "A", right]]], "a.xlsx")
    assert [one.answers for one in table.handed] == [right]
    assert table.notes == ("Line 3 was taken for the heads.",)


@pytest.mark.parametrize(
    "text",
    ["ABCD ABC", "A B C D A B C", "a,b,c,d,a,b,c", "A; B; C; D; A; B; C", "A/B/C/D/A/B/C", " ABCDABC ", "AB\nCD\tABC"],
)
def test_letters_in_one_cell_however_they_are_parted(text):
    assert letters_in([text], 7).upper() == "ABCDABC"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("ABCDE ABCD", "9 answers for 10 questions, with blanks between: a blank stands for nothing here"),
        ("A,B,C", "3 answers for 10 questions, parted by ,: give one letter each"),
        ("A,B;C", "answers for 10 questions, parted by"),
        ("A,B,C,D,E,A,B,C,D,EE", "question 10 has 'EE': give one letter each"),
    ],
)
def test_letters_that_can_be_read_in_two_ways_are_refused(text, why):
    with pytest.raises(Refused) as caught:
        letters_in([text], 10)
    assert why in f"{caught.value.message}: {caught.value.mend}"


@pytest.mark.parametrize(
    ("heads", "why"),
    [
        ("name,form,answers,1,2,3,4,5,6,7", "there is a column 'answers' and one for question 1"),
        ("name,form,1,2,3,4,5,6", "columns are for other questions than the paper's, 1 to 7: see to question 7"),
        ("name,form,1,2,3,4,5,6,7,8", "see to question 8"),
        ("name,form,1,2,3,3,4,5,6", "two columns are for question 3"),
        ("name,candidate,form,answers", "two columns could be the name, 'name' and 'candidate'"),
        ("name,surname,form,answers", "'name' and 'surname' both name people"),
        ("name,answers", "the columns are 'name, answers', where they should be name, form, answers (or 1 to 7)"),
    ],
)
def test_columns_that_can_be_read_in_two_ways_are_refused(room, heads, why):
    (bad,) = read(room, f"{heads}\n".encode()).bad
    assert (bad.line, why in bad.why) == (1, True), bad.why


def test_a_bad_cell_among_columns_names_its_question(room, right):
    text = f"name,form,{','.join(QUESTIONS)}\nAda,A,{','.join(right[:6])},AB\nBen,B,{','.join(right[:6])},Z\n"
    table = read(room, text.encode())
    assert [(bad.line, bad.why) for bad in table.bad] == [
        (2, "question 7 has 'AB': give one letter each, - for none"),
        (3, "question 7 offers A to D, not 'Z': look at the sheet"),
    ]
    assert room.store.papers.scripts(room.paper.id) == ()


def test_first_name_and_surname_in_two_columns(room):
    room.store.add_trainee("t8", "Ada Byron", room.clock())
    path = room.folder / "register.csv"
    path.write_bytes("Surname\tFirst name\tDate of birth\nByron\tAda\t\n".encode("utf-16"))
    filled = fill_from(room.world, "Monday", path, add=False)
    assert (filled.joined, filled.bad, filled.notes) == (1, (), ("Columns passed over: Date of birth.",))
    assert room.store.groups.members("Monday") == ("Ada Byron",)


def test_the_column_called_full_name_is_the_one_with_the_names(room, right):
    table = read(room, f"Candidate,Full name,form,answers\n1041,Ada,A,{right}\n".encode())
    assert [one.name for one in table.handed] == ["Ada"]
    assert "Columns passed over: Candidate." in table.notes


def test_a_workbook_of_several_sheets_is_read_where_one_of_them_is_the_table(room, right):
    rows = [["name", "form", "answers"], ["Ada", "A", right]]
    assert taken(room, [[["Notes"], ["Thursday"]], rows], "a.xlsx") == [("Ada", "A", right)]
    with pytest.raises(Refused, match="can be read as sheet 'Sheet1' and as sheet 'Sheet2'"):
        read(room, [rows, rows], "b.xlsx")


def test_numbers_dates_and_gaps_of_a_workbook_are_text(room):
    rows = [["name", "form", *map(int, QUESTIONS)], ["Ada", "A", "A", None, "C"], [], ["Ben", "B", *"ABCDABC"]]
    handed = read(room, [rows], "a.xlsx").handed
    assert [(one.name, one.answers) for one in handed] == [("Ada", "A-C----"), ("Ben", "ABCDABC")]


def test_a_formula_without_its_value_is_no_empty_cell(room):
    (bad,) = read(room, [[["name", "form", "answers"], ["Ada", "A", '="ABC"&"DABC"']]], "a.xlsx").bad
    assert (bad.line, "a formula here has no value in the file" in bad.why) == (2, True)


def test_the_same_answers_from_any_table_are_marked_once(room, right):
    tables = [
        f"name,form,answers\nAda,A,{wrong_at(right, 3)}\n".encode(),
        f"name;form;answers\nAda;A;{' '.join(wrong_at(right, 3))}\n".encode("utf-16"),
        [[["name", "form", *QUESTIONS], ["Ada", "A", *wrong_at(right, 3)]]],
    ]
    new = []
    for number, content in enumerate(tables):
        table = read(room, content, "a.xlsx" if isinstance(content, list) else f"{number}.csv")
        new += [line.new for line in mark_all(room.world, room.paper, room.making, (), table.handed)]
    assert new == [True, False, False]


CELL = st.text(st.characters(exclude_categories=["C"], exclude_characters="\u2028\u2029"), max_size=12)
WORD = CELL.map(lambda text: f"x{text}x")  # neither empty, nor a formula's guard, nor with blanks at its ends


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(WORD, WORD, CELL), min_size=1, max_size=6),
    st.sampled_from([",", ";", "\t"]),
    st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "utf-32"]),
    st.sampled_from(["\n", "\r\n"]),
)
def test_any_cells_come_back_from_any_parting_and_encoding(tmp_path_factory, cells, sign, encoding, end):
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=sign, lineterminator=end).writerows([("entry", "by", "more"), *cells])
    path = tmp_path_factory.mktemp("any") / "t.csv"
    path.write_bytes(out.getvalue().encode(encoding))
    table = read_rows(path, columns("by", "entry"))
    assert table.bad == []
    assert [row.cells for row in table.rows] == [((by,), (entry,)) for entry, by, _ in cells]


@settings(max_examples=15, deadline=None)
@given(st.lists(st.tuples(WORD, WORD, CELL.filter(lambda text: not text.startswith("="))), min_size=1, max_size=4))
def test_any_cells_come_back_from_a_workbook(tmp_path_factory, cells):
    path = tmp_path_factory.mktemp("any") / "t.xlsx"
    table = read_rows(workbook(path, [("entry", "by", "more"), *cells]), columns("by", "entry"))
    assert table.bad == []
    assert [row.cells for row in table.rows] == [((by,), (entry,)) for entry, by, _ in cells]


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=300), st.sampled_from([b"", b"PK\x03\x04", b"name,form\n", b"\xff\xfe", b"sep=;\n"]))
def test_any_bytes_are_a_table_or_one_sentence(tmp_path_factory, content, start):
    path = tmp_path_factory.mktemp("any") / "t.csv"
    path.write_bytes(start + content)
    with suppress(Refused):  # which has its mend
        table = read_rows(path, register_layout)
        assert table.rows or all(bad.line and bad.why for bad in table.bad)
