"""The sheet for the pocket: one's own mistakes with the right working, formulas of weak topics, eight pages folded."""

import pytest
from pypdf import PdfReader

from quizzer.pages.pocket import notes
from quizzer.question.making import make
from quizzer.workflows.forecast.pocket import Pocket, PocketMistake
from scripts.demonstration import fill
from tests.cli.running import ran
from tests.exam import bank_of_cards
from tests.sitting import MORNING, Sitting

NOW = ("--now", "2026-11-25T07:00+00:00")
A4 = (841.9, 595.3)


@pytest.fixture(scope="module")
def sheet(tmp_path_factory):
    """The sheet of an invented trainee."""
    folder = tmp_path_factory.mktemp("pocket")
    fill(folder / "demo.db", 7, "2026-11-25")
    with pytest.MonkeyPatch.context() as patch:
        args = ("--trainee", "Priya (invented)", "--store", str(folder / "demo.db"), "--pocket", str(folder / "p.pdf"))
        done = ran(patch, "progress", *args, *NOW)
    assert "one sheet of A4 to fold to eight pages" in " ".join(done.out.split()), done.err
    return PdfReader(folder / "p.pdf")


def numbers_of(page):
    """Where the number of each of the eight pages stands, and whether upright: its column, the lower row, upright."""
    found = {}

    def seen(text, matrix, _, __, size):
        if text.strip().isdigit() and size == 6:  # the small print of the page numbers alone
            upright, across, up = matrix[0], matrix[4], matrix[5]
            found[int(text)] = (int(4 * across / A4[0]), up < A4[1] / 2, upright > 0)

    page.extract_text(visitor_text=seen)
    return found


def test_one_sheet_of_a4_with_mistakes_working_and_formulas(sheet):
    assert len(sheet.pages) == 1
    assert tuple(round(float(size), 1) for size in sheet.pages[0].mediabox[2:]) == A4
    text = sheet.pages[0].extract_text()
    for words in ("For the pocket", "Right:", "Why:", "Formulas:", "never an"):
        assert words in text, words
    assert text.count("Right:") >= 6


def test_the_pages_lie_so_that_folding_puts_them_in_order(sheet):
    """Two pages that open together share a fold: 2 and 3, 4 and 5, 6 and 7, and 8 beside the cover.

    The order is that of any one-sheet booklet of eight pages: lower row 6, 7, 8, 1, upper row 5, 4, 3, 2 on its head.
    """
    found = numbers_of(sheet.pages[0])
    rows = {place: number for number, place in found.items()}
    assert [rows[at, True, True] for at in range(4)] == [6, 7, 8, 1]
    assert [rows[at, False, False] for at in range(4)] == [5, 4, 3, 2]


def test_a_mistake_shows_what_is_right_without_the_letter(tmp_path):
    bank = bank_of_cards(tmp_path / "bank", 1)
    sitting = Sitting(bank)
    question = make(sitting.world.shelf.find("principles/many/series-0"), 3)
    found = Pocket(sitting.trainee(), MORNING.date(), (PocketMistake(question, "added what divides"),), {})
    (note,) = notes(found)
    assert note.title == "Added what divides"
    assert question.option(question.key).text in [each.words for each in note.blocks if each.lead == "Right"]


@pytest.mark.parametrize(("name", "code"), [("p.txt", 2), ("p.pdf", 1)])
def test_what_cannot_be_written_is_refused_in_one_sentence(tmp_path, monkeypatch, name, code):
    done = ran(monkeypatch, "progress", "--store", str(tmp_path / "s.db"), "--pocket", str(tmp_path / name))
    assert (done.code, done.err.count("\n"), done.out) == (code, 1, "")
    assert not (tmp_path / name).exists()
