"""Where boxes stand on an answer sheet, what its code says, and what is answered by marks of so much ink."""

from itertools import pairwise

import pytest

from quizzer.paper.record import Form, Item
from quizzer.paper.sheet_code import LONGEST_NAME, SheetCode, check_of, code_name, read_code
from quizzer.paper.sheet_layout import BOTTOM, CODE_LEFT, CODE_SIDE, CODE_TOP, LOOKS, RIGHT, sheet_pages
from quizzer.paper.sheet_marks import Box, read_row

CODE = SheetCode("mock-1", "A", "0123abcd", 17, 1, 3, "large-print-18")
EMPTY, FAINT, SPECK, CROSS, FILL = Box(0.0, 0.1), Box(0.05, 0.1), Box(0.02, 0.1), Box(0.16, 0.35), Box(0.5, 0.98)


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("questions", [1, 4, 5, 6, 29, 30, 31, 59, 60, 61, 119, 120, 200])
def test_every_question_has_its_row_on_the_page_and_no_two_rows_meet(look, questions):
    sizes = LOOKS[look]
    pages = sheet_pages(["ABCD"] * questions, look)
    assert [row.question for page in pages for row in page] == list(range(1, questions + 1))
    for page in pages:
        for row in page:
            assert row.first + 3 * sizes.across + sizes.side <= RIGHT
            assert row.top + sizes.side <= BOTTOM
            assert row.top > CODE_TOP + CODE_SIDE or row.first + 4 * sizes.across < CODE_LEFT
        for above, below in pairwise(page):
            assert below.left > above.left or below.top - above.top >= sizes.side + 1.5


def test_sixty_questions_are_one_page_and_thirty_use_all_its_columns():
    (page,) = sheet_pages(["ABCD"] * 60, "standard")
    assert len({row.left for row in page}) == 4
    (page,) = sheet_pages(["ABCD"] * 30, "standard")
    assert len({row.left for row in page}) == 3
    assert max(row.top for row in page) < max(row.top for row in sheet_pages(["ABCD"] * 60, "standard")[0])


def test_more_options_take_fewer_columns():
    (page,) = sheet_pages(["ABCDEFGH"] * 20, "standard")
    assert len({row.left for row in page}) == 2
    assert max(row.first + 7 * 7.6 + 6 for row in page) <= RIGHT


def test_a_code_reads_back_and_other_codes_are_none_of_ours():
    assert read_code(CODE.text) == CODE
    for other in (
        "",
        "hello",
        "https://example.invalid/A",
        CODE.text.replace("large-print-18", "large"),
        "S1 0 x 1/1 A",
    ):
        assert read_code(other) is None


def test_a_long_name_of_a_paper_is_a_fingerprint_that_two_papers_do_not_share():
    assert code_name("x" * LONGEST_NAME) == "x" * LONGEST_NAME
    long, other = code_name("x" * 61), code_name("x" * 60 + "y")
    assert long != other
    assert len(long) == len("~0123456789abcdef")
    assert read_code(CODE._replace(paper=long).text) == CODE._replace(paper=long)


def test_forms_that_ask_something_else_have_another_check_and_it_tells_no_key():
    item = Item("a/b/c", 1, "digest", "one", "A")
    form = Form("A", "A", "", (item,))
    assert check_of(form) == check_of(form._replace(items=(item._replace(key="B"),)))
    for changed in (item._replace(seed=2), item._replace(entry="a/b/d"), item._replace(exercise="wrong-line:2")):
        assert check_of(form._replace(items=(changed,))) != check_of(form)


@pytest.mark.parametrize(
    ("boxes", "letter", "why"),
    [
        ((EMPTY, CROSS, EMPTY, EMPTY), "B", ""),
        ((EMPTY, EMPTY, SPECK, EMPTY), "-", ""),
        ((FILL, CROSS, EMPTY, EMPTY), "B", ""),
        ((FILL, FILL, FILL, CROSS), "D", ""),
        ((FAINT, CROSS, EMPTY, EMPTY), "B", ""),
        ((EMPTY, CROSS, CROSS, EMPTY), "?", "B and C are crossed"),
        ((CROSS, CROSS, CROSS, FILL), "?", "A, B and C are crossed"),
        ((FILL, EMPTY, EMPTY, EMPTY), "?", "A filled in, none crossed"),
        ((FILL, FAINT, EMPTY, EMPTY), "?", "A filled in, none crossed, B faintly marked"),
        ((FAINT, EMPTY, EMPTY, EMPTY), "?", "A faintly marked"),
        ((CROSS, Box(0.3, 0.7), EMPTY, EMPTY), "?", "B may be crossed or filled in"),
        ((Box(0.07, 0.2), Box(0.04, 0.1), EMPTY, EMPTY), "?", "A is crossed, and B perhaps"),
    ],
)
def test_a_row_is_read_or_left_to_a_person_with_the_reason(boxes, letter, why):
    assert read_row(dict(zip("ABCD", boxes, strict=True)), found=True) == (letter, why)


def test_a_row_whose_boxes_are_not_where_they_should_be_is_left_to_a_person():
    assert read_row(dict.fromkeys("ABCD", EMPTY), found=False) == ("?", "its boxes cannot be found")
