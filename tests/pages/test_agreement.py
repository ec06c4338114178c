"""Every page says the same words in the same order on a terminal, on paper and on the web."""

import pytest

from quizzer.blocks.page import Only, Page
from quizzer.blocks.pictures import Picture
from quizzer.blocks.plots import Column, Columns, Grid, Interval, Intervals
from quizzer.blocks.question import CautionNote, Choices, Working, WorkingLine
from quizzer.blocks.text import DataTable, Gap, Heading, Listing, PageBreak, Paragraph, Points, do
from quizzer.expression.reading import read
from quizzer.pages.weak import SIGNS
from quizzer.render.html.fragments import fragment
from quizzer.render.typst.report import report_pdf
from tests.pages.collected import collected
from tests.pages.reading import DAY, on_paper, on_terminal, read_back, words_of

OHM = read("U / R_1")
EVERYTHING = Page(
    "Title & <b>more</b>",
    [
        Paragraph(("see ", do("paper report", "m-1", person="Ann O'Neil"), " now"), "key"),
        Paragraph("it is 0.94 Ω at 2.5 mm²", lead="Why"),
        Paragraph("RIGHT.", "right"),
        Paragraph("WRONG.", "wrong"),
        Paragraph("live work kills", "caution"),
        Heading("Two"),
        Heading("Three", 3),
        Points(["one", ("two ", do("study"))]),
        Points(["first", "second"], ordered=True),
        DataTable("Table", ["A", "B"], [["x y z", "1"], ["all", "2"]], right=[1], total=True),
        DataTable("", ["Test", "Where", "Reading"], [["ends", "line", "1 Ω"], ["", "neutral", "2 Ω"]], spanning=True),
        Intervals("Intervals", [Interval("Long name", "50 %", 0.5, 0.2, 0.8), Interval("b", "x", 0.3)], 1, 0.6, "pass"),
        Columns("Columns", [Column("1 to 2", "3 people", 3), Column("3", "4", 4, full=False)]),
        Grid("Grid", [f"t{at}" for at in range(16)], [("Amara", ["weak", "fair"] * 8)], SIGNS),
        Picture("resistors", {"net": "R_1 10 Ω + (20 Ω | coil <L> & 5 mH)"}, needed=True),
        Picture("star", {"branches": ("10 Ω",) * 3}),
        CautionNote("Live work kills.", "the duty holder"),
        Choices([("A", "ten ohms"), ("B", "2 Ω")]),
        Working([WorkingLine("I_n", "Divide.", "I_n = U / R_1", "230 V / 23 Ω", "10 A", OHM, OHM)], {"U": "230 V"}),
        Listing(["x = 1", "  y"]),
        Gap(),
        PageBreak(),
        Only(("terminal",), [Paragraph("typed")]),
        Only(("web",), [Paragraph("linked")]),
        Paragraph("end", "aside"),
    ],
    "beside",
)


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """Every page the program has, by name."""
    return collected(tmp_path_factory.mktemp("pages"))


def test_every_block_says_the_same_everywhere():
    typed, linked = on_terminal(EVERYTHING), read_back(EVERYTHING, "web")
    assert read_back(EVERYTHING, "paper") == [word for word in typed if word != "typed"]
    assert [word for word in linked if word != "linked"] == [word for word in typed if word != "typed"]
    assert (typed[-2:], linked[-2:]) == (["typed", "end"], ["linked", "end"])


def test_every_page_says_the_same_everywhere(pages):
    """But for blocks that say they are for one medium: those are left out here."""
    assert len(pages) > 170
    common = {
        name: page._replace(blocks=[each for each in page.blocks if not isinstance(each, Only)])
        for name, page in pages.items()
    }
    typed = {name: on_terminal(page) for name, page in common.items()}
    for medium in ("web", "paper"):
        assert {name for name, page in common.items() if read_back(page, medium) != typed[name]} == set(), medium


def test_the_reader_would_see_a_word_too_few():
    page = Page("t", [Paragraph("one two")])
    assert on_paper(report_pdf(page, DAY, "serial", "head")) != on_terminal(Page("t", [Paragraph("one two three")]))
    assert words_of("0.94 Ω, 50 %") == ["0", "94", "ohms", "50", "%"]


def test_only_few_blocks_are_for_one_medium(pages):
    apart = [name for name, page in pages.items() if any(isinstance(block, Only) for block in page.blocks)]
    assert {name.partition(" ")[0] for name in apart} == {"plan", "sit", "diagnose"}


def test_nothing_of_a_page_is_read_as_html():
    assert "<b>" not in fragment(EVERYTHING)
    assert " style=" not in fragment(EVERYTHING)
    assert "<script" not in fragment(EVERYTHING)
