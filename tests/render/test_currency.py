"""Beside an edition every medium says the same about the latest amendment: screen, mark scheme, QTI and the table."""

import xml.etree.ElementTree as ET

import pytest

from quizzer.editions import NOT_TIED
from quizzer.pages.question import provenance, source_line
from quizzer.question.making import make
from quizzer.render.csv.question_table import question_table
from quizzer.render.qti.dialects import DIALECTS
from quizzer.render.qti.items import item
from quizzer.render.typst.paper_words import scheme_words
from tests.banktext import CARD, entry
from tests.render.forms import paper

A3 = "BS 7671:2018+A2:2022+A3:2024"
SOURCE = 'source = "Kirchhoff\'s first law"'
CHANGED = f'{SOURCE}\ncurrency = "changed"\nsince = "A4"\ncurrency_source = "a notice of 2026"'
CASES = pytest.mark.parametrize(
    ("source", "words"), [(SOURCE, "may have changed with A4"), (CHANGED, "A4 changed this: look up")]
)


def question(source):
    return make(entry(CARD.replace(NOT_TIED, A3).replace(SOURCE, source)), 1)


@CASES
def test_the_screen_says_it_in_the_line_and_in_full(source, words):
    asked = question(source)
    assert source_line(asked).words.endswith(f"A2+A3, {words}")
    told = {block.lead: block.words for block in provenance(asked)}
    assert told["Edition"].startswith(f"{A3}, {words};")
    assert told.get("A4", "") == ("a notice of 2026" if source == CHANGED else "")


@CASES
def test_the_mark_scheme_the_packages_and_the_table_say_the_same(source, words):
    asked = question(source)
    made = paper([asked])
    expected = f"{A3}, {words}"
    (solved,) = scheme_words(made, made.forms[0], [asked], "standard")["solved"]
    assert solved["edition"] == expected
    for dialect in DIALECTS.values():
        assert expected in "".join(ET.tostring(item(dialect, "i", asked), "unicode", "text"))
    assert f'"{expected}"' in question_table(made, made.forms[0], [asked]).decode("utf-8-sig")


def test_what_is_tied_to_no_edition_says_nothing_of_amendments():
    asked = make(entry(CARD), 1)
    assert source_line(asked).words.endswith(NOT_TIED)
