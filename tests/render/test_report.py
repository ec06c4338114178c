"""Reports on paper: every block, in tagged PDF, with every value in words."""

import io
from datetime import date

import pytest
from pypdf import PdfReader

from quizzer.blocks.page import Page
from quizzer.blocks.plots import Column, Columns, Interval, Intervals
from quizzer.blocks.text import DataTable, Heading, Listing, PageBreak, Paragraph, Points
from quizzer.render.typst.report import report_pdf
from tests.render.forms import HOSTILE, catalogue, tags, words

DAY = date(2026, 11, 25)
BLOCKS = (
    Paragraph("Amina answered 41 of 60.", "key"),
    Paragraph("If you sat a similar paper tomorrow, expect 38 to 44.", "caution"),
    Heading("Topics"),
    Intervals(
        "By topic",
        [Interval("Safety", "8 of 10", 0.8, 0.49, 0.94), Interval("Testing", "0 of 3", 0)],
        1,
        0.6,
        "pass mark",
    ),
    Heading("Wrong answers", 3),
    DataTable(
        "Mistakes", ["Question", "The mistake"], [["12", "Forgot the temperature factor"], ["13", ""]], right=[0]
    ),
    Points(["Read chapter one", "Ask"]),
    PageBreak(),
    Paragraph("Overleaf"),
)


def made(blocks, look="standard"):
    return report_pdf(Page("Report", blocks), DAY, "sample-1/A", "MOCK", look)


@pytest.mark.parametrize("look", ["standard", "large-print-24"])
def test_every_block_comes_out_in_order(look):
    pdf = made(BLOCKS, look)
    text, at = words(pdf), 0
    for each in (
        "Amina answered",
        "expect 38 to 44",
        "Topics",
        "By topic",
        "(the line: pass mark)",
        "Safety",
        "8 of 10",
        "Testing",
        "0 of 3",
        "Wrong answers",
        "Mistakes",
        "The mistake",
        "12",
        "temperature factor",
        "Read chapter",
        "Overleaf",
    ):
        at = text.find(each, at)
        assert at >= 0, each
    assert "sample-1/A Page 1 of " in text


def test_a_report_is_tagged_and_its_pictures_are_decoration():
    pdf = made(BLOCKS)
    assert catalogue(pdf)["/Lang"] == "en-GB"
    assert b"<pdfuaid:part>1</pdfuaid:part>" in catalogue(pdf)["/Metadata"].get_object().get_data()
    found = [tag["/S"] for tag in tags(pdf)]
    assert "/Figure" not in found
    assert {"/H1", "/H2", "/H3", "/TH", "/LBody"} <= set(found)


def test_a_picture_is_a_figure_with_its_words():
    plot = Columns("Topics 中", [Column("testing 中", "50 % 中", 0.5)])
    pdf = report_pdf(Page("R", [plot]), DAY, "x", "Study aid")
    (figure,) = [tag for tag in tags(pdf) if tag["/S"] == "/Figure"]
    assert figure["/Alt"].replace("\u00a0", " ") == "testing [U+4E2D]: 50 % [U+4E2D]."
    assert "Topics [U+4E2D]" in words(pdf)
    assert "Study aid" in words(pdf)
    assert "MOCK" not in words(pdf)


def test_a_short_table_is_not_split():
    rows = [[str(at), f"row {at} end"] for at in range(12)]
    blocks = [Paragraph("word " * 600), DataTable("Short", ["n", "what"], rows)]
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(made(blocks))).pages]
    assert [page.count(" end") for page in pages if " end" in page] == [12]


def test_a_bar_never_leaves_its_scale():
    wild = made([Intervals("", [Interval("a", "seven", 7.0, -3.0, 9.0)])])
    assert wild == made([Intervals("", [Interval("a", "seven", 1.0, 0.0, 1.0)])])


def test_a_long_table_repeats_its_heads_on_every_page():
    long = DataTable("", ["Question", "The mistake"], [[str(at), "same"] for at in range(120)])
    pages = PdfReader(io.BytesIO(made([long]))).pages
    assert len(pages) > 2
    assert all("The mistake" in page.extract_text() for page in pages)


def test_an_empty_table_is_its_heads():
    assert "Question" in words(made([DataTable("", ["Question", "Key"], [])]))


def test_hostile_text_comes_out_as_it_was_written():
    blocks = [
        Heading(HOSTILE),
        Paragraph(HOSTILE),
        Points([HOSTILE]),
        DataTable(HOSTILE, [HOSTILE], [[HOSTILE]]),
        Intervals(HOSTILE, [Interval(HOSTILE, HOSTILE, 0.5)], 1, 0.5, HOSTILE),
    ]
    assert words(report_pdf(Page(HOSTILE, blocks, HOSTILE), DAY, HOSTILE, HOSTILE)).count("#panic") >= 11


def test_a_listing_keeps_the_spaces_before_its_lines():
    (page,) = PdfReader(io.BytesIO(made([Listing(["first", "  second", "    third", "fourth"])]))).pages
    left = {}

    def note(text, place, *_):
        left[text.strip()] = place[4]

    page.extract_text(visitor_text=note)
    assert left["first"] == left["fourth"]
    step = left["second"] - left["first"]
    assert step > 5
    assert left["third"] - left["second"] == pytest.approx(step)
