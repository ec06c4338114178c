"""The pages of a sheet to practise on are those that its packing reckons with."""

import io
from datetime import date
from random import Random

import pytest
from pypdf import PdfReader

from quizzer.paper.packing import packed_orders, white
from quizzer.render.typst.worksheet import PracticeSheet, sheet_heights, worksheet_pdf
from tests.render.forms import card

CARDS = [card(f"Question {at}: {'which of the cables is it ' * (at % 7)}?") for at in range(9)]


@pytest.mark.parametrize("look", ["standard", "large-print-24"])
def test_the_block_above_the_questions_takes_its_room_of_the_first_page(look):
    sheet = PracticeSheet("Cables", "", "S-1", CARDS)
    heights = sheet_heights(sheet, look)
    order = packed_orders([heights], lambda _: True, Random("S-1").random)
    expected = white(heights, order)
    pages = PdfReader(io.BytesIO(worksheet_pdf([sheet], look, date(2026, 11, 25), answers=False))).pages
    assert len(pages) == len(expected)
    asked = [page.extract_text().count("Question ") for page in pages]
    assert sum(asked) == len(CARDS)
    without = white(heights._replace(heads=(30.0,)), order)
    assert without != expected
