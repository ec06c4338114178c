"""What is said of a question beside the question: the symbols it uses, and what follows from its verdict."""

from quizzer.blocks.text import DataTable
from quizzer.pages.question import about_page, symbols
from quizzer.question.making import make
from tests.shippedbank import SHELF

QUESTION = make(SHELF.find("design/loop/loop-impedance-at-design"), 3)


def test_every_symbol_of_the_working_has_its_meaning_once_the_answer_is_given():
    (table,) = symbols(QUESTION)
    meant = {row[0]: (row[1], row[2]) for row in table.rows}
    given = next(one for one in QUESTION.given if one.name == "Z_e")
    assert meant["Ze"] == (given.text, "external loop impedance")
    assert meant["Zs"] == (QUESTION.answer.text, "In series with the supply.")
    assert "r1" not in meant  # a value that only a mistake uses
    assert table in about_page(QUESTION).blocks


def test_before_the_answer_only_what_the_stem_shows_is_told():
    (table,) = symbols(QUESTION, given=False)
    assert {row[0] for row in table.rows} == {"Ze", "S", "Sc", "r", "L", "F", "Zmax"}
    assert not any(
        isinstance(block, DataTable) and QUESTION.answer.text in str(block)
        for block in about_page(QUESTION, given=False).blocks
    )


def test_a_verdict_says_what_follows_from_it():
    found, limit = QUESTION.answer.text, next(one for one in QUESTION.given if one.name == "Z_max").text
    consequence = "within the limit, so the breaker trips in time; measure to confirm."
    assert f"{found} ≤ {limit}: {consequence}" == QUESTION.verdict
    assert QUESTION.option(QUESTION.key).text == f"{found}: within the limit"
