"""Reports on paper: every block, in tagged PDF, with every value in words."""

import io
from datetime import date

import pytest
from pypdf import PdfReader

from quizzer.render.svg.plots import Interval, intervals
from quizzer.render.typst.report import Bar, Bars, Heading, PageBreak, Paragraph, Picture, Points, Table, report_pdf
from tests.render.forms import HOSTILE, catalogue, tags, words

DAY = date(2026, 11, 25)
BLOCKS = (
    Paragraph("Amina answered 41 of 60.", bold=True),
    Paragraph("If you sat a similar paper tomorrow, expect 38 to 44.", framed=True),
    Heading("Topics"),
    Bars("By topic", [Bar("Safety", 0.8, "8 of 10", 0.49, 0.94), Bar("Testing", 0, "0 of 3")], 0.6, "pass mark"),
    Heading("Wrong answers", 3),
    Table("Mistakes", ["Question", "The mistake"], [["12", "Forgot the temperature factor"], ["13", ""]], right=[0]),
    Points(["Read chapter one", "Ask"]),
    PageBreak(),
    Paragraph("Overleaf"),
)


@pytest.mark.parametrize("look", ["standard", "large-print-24"])
def test_every_block_comes_out_in_order(look):
    pdf = report_pdf("Report", "sample-1/A", BLOCKS, DAY, look)
    text, at = words(pdf), 0
    for each in (
        "Amina answered", "expect 38 to 44", "Topics", "By topic", "Dashed line: pass mark", "Safety", "8 of 10",
        "Testing", "0 of 3", "Wrong answers", "Mistakes", "The mistake", "12", "temperature factor", "Read chapter",
        "Overleaf",
    ):  # fmt: skip
        at = text.find(each, at)
        assert at >= 0, each
    assert "sample-1/A Page 1 of " in text


def test_a_report_is_tagged_and_its_pictures_are_decoration():
    pdf = report_pdf("Report", "x", BLOCKS, DAY)
    assert catalogue(pdf)["/Lang"] == "en-GB"
    assert b"<pdfuaid:part>1</pdfuaid:part>" in catalogue(pdf)["/Metadata"].get_object().get_data()
    found = [tag["/S"] for tag in tags(pdf)]
    assert "/Figure" not in found
    assert {"/H1", "/H2", "/H3", "/TH", "/LBody"} <= set(found)


def test_a_picture_is_a_figure_with_its_words():
    plot = intervals("Topics 中", "testing 50 % 中", [Interval("testing 中", 0.2, 0.5, 0.7)], 1.0)
    pdf = report_pdf("R", "x", [Picture(plot)], DAY, head="Study aid")
    (figure,) = [tag for tag in tags(pdf) if tag["/S"] == "/Figure"]
    assert figure["/Alt"].replace("\u00a0", " ") == "testing 50 % [U+4E2D]"
    assert "testing [U+4E2D]" in words(pdf)
    assert "Study aid" in words(pdf)
    assert "MOCK" not in words(pdf)


def test_a_short_table_is_not_split():
    rows = [[str(at), f"row {at} end"] for at in range(12)]
    blocks = [Paragraph("word " * 600), Table("Short", ["n", "what"], rows)]
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(report_pdf("R", "x", blocks, DAY))).pages]
    assert [page.count(" end") for page in pages if " end" in page] == [12]


def test_a_bar_never_leaves_its_scale():
    wild = report_pdf("R", "x", [Bars("", [Bar("a", 7.0, "seven", -3.0, 9.0)])], DAY)
    assert wild == report_pdf("R", "x", [Bars("", [Bar("a", 1.0, "seven", 0.0, 1.0)])], DAY)


def test_a_long_table_repeats_its_heads_on_every_page():
    long = Table("", ["Question", "The mistake"], [[str(at), "same"] for at in range(120)])
    pages = PdfReader(io.BytesIO(report_pdf("R", "x", [long], DAY))).pages
    assert len(pages) > 2
    assert all("The mistake" in page.extract_text() for page in pages)


def test_an_empty_table_is_its_heads():
    assert "Question" in words(report_pdf("R", "x", [Table("", ["Question", "Key"], [])], DAY))


def test_hostile_text_comes_out_as_it_was_written():
    blocks = [
        Heading(HOSTILE), Paragraph(HOSTILE), Points([HOSTILE]), Table(HOSTILE, [HOSTILE], [[HOSTILE]]),
        Bars(HOSTILE, [Bar(HOSTILE, 0.5, HOSTILE)], 0.5, HOSTILE),
    ]  # fmt: skip
    assert words(report_pdf(HOSTILE, HOSTILE, blocks, DAY)).count("#panic") >= 11
