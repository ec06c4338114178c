"""The pages of a paper report as recorded, its files, and names that would like to be more than names."""

import csv
import io
import os
from pathlib import Path

import pypdf
import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.blocks.page import Page
from quizzer.blocks.plots import Column, Columns, Grid, Interval, Intervals
from quizzer.blocks.text import DataTable, Heading, Listing, Paragraph, Points
from quizzer.marks.answers import AnswerRow
from quizzer.pages.weak import SIGNS
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay
from tests.cli.running import ran
from tests.papersat import NAMES, bank, keep, paper, scripts

GOLDEN = Path(__file__).parent.parent / "golden"
CASES = {
    "report-group": (),
    "report-group-plain": ("--plain",),
    "report-items": ("--items",),
    "report-person": ("--person", "farah"),
    "report-person-plain": ("--person", "Priya", "--plain"),
}
HOSTILE = ("=cmd|'/c calc'!A1", '#import "x.typ"; $', "@SUM(1)", "<b>&amp;", "[bold]Ann[/bold]", "Zoë, “O'Neil”")


@pytest.fixture
def there(tmp_path):
    """A bank, a store with sixteen scripts in it, and the paper's id."""
    return setting(tmp_path, NAMES)


def setting(root, names, letters="AB"):
    shelf = Shelf(bank(root / "bank"))
    made = paper(shelf, letters)
    found = scripts(shelf, made, names)
    url = str(root / "s.db")
    keep(url, made, found)
    return (made.id, "--bank", str(root / "bank"), "--store", url)


@pytest.mark.parametrize("name", sorted(CASES))
def test_a_page_is_as_recorded(name, there, monkeypatch):
    found = ran(monkeypatch, "paper", "report", *there, *CASES[name])
    assert found.code == 0, found.err
    assert max(map(len, found.out.split("\n"))) <= 80
    assert "plain" not in name or found.out.isascii()
    recorded = GOLDEN / f"{name}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(found.out, encoding="utf-8")
    assert found.out == recorded.read_text(encoding="utf-8")


def table(path):
    return list(csv.reader(io.StringIO(path.read_text(encoding="utf-8-sig"))))


@pytest.mark.parametrize(("more", "rows"), [((), 16), (("--person", "Asha"), 10), (("--items",), 80)])
def test_a_table_holds_a_row_for_each(more, rows, there, tmp_path, monkeypatch):
    out = tmp_path / "report.csv"
    found = ran(monkeypatch, "paper", "report", *there, *more, "--out", str(out))
    assert (found.code, "".join(found.out.split())) == (0, f"Written:{out}")  # wherever the line is broken
    heads, *lines = table(out)
    assert len(lines) == rows
    assert {len(line) for line in lines} == {len(heads)}


def text_of(path):
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(path).pages).split())


def test_hostile_names_stay_names(tmp_path, monkeypatch):
    there = setting(tmp_path, (*NAMES, *HOSTILE))
    out, made = tmp_path / "people.csv", tmp_path / "one.pdf"
    assert ran(monkeypatch, "paper", "report", *there, "--out", str(out)).code == 0
    names = {row[0] for row in table(out)[1:]}
    assert not [name for name in names if name[0] in "=+-@\t\r"]
    assert {"'" + HOSTILE[0], "'" + HOSTILE[2], *HOSTILE[1:2], *HOSTILE[3:]} <= names
    for name in HOSTILE:
        assert name in ran(monkeypatch, "paper", "report", *there, "--person", name).out
        assert ran(monkeypatch, "paper", "report", *there, "--person", name, "--out", str(made)).code == 0
        assert name.replace(" ", "") in text_of(made).replace(" ", "")


def test_characters_that_steer_a_terminal_are_not_sent():
    """The store refuses such names; a bank's text is shown by the same way."""
    bad = "Mal\x1b[2J\x07\u202elory\n"
    canvas = Canvas(Look())
    blocks = [
        Heading(bad),
        Paragraph(bad),
        Points([bad]),
        DataTable(bad, (bad,), [(bad,)]),
        Listing([bad]),
        Intervals(bad, [Interval(bad, bad, 0.5), Interval(bad, bad, 0.5, 0.1, 0.9)]),
        Grid(bad, [bad], [(bad, ["weak"])], SIGNS),
        Columns(bad, [Column(bad, bad, 1)]),
    ]
    lay(canvas, Page(bad, blocks, bad))
    assert str(canvas).count("Mal\\x1b[2J\\x07\\u202elory") == 20
    assert str(canvas).replace("\n", "").isprintable()


@pytest.mark.parametrize(
    ("more", "code", "words"),
    [
        (("--person", "Nobody"), 1, "'Nobody' has no script of paper"),
        (("--items", "--person", "Asha"), 2, "ask for one of them"),
        (("--out", "report.xls"), 2, "neither .pdf nor .csv"),
        (("--out", "no/such/folder/report.csv"), 1, "cannot be written"),
    ],
)
def test_what_cannot_be_done_is_said(more, code, words, there, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    found = ran(monkeypatch, "paper", "report", *there, *more)
    assert (found.code, found.out) == (code, "")
    assert words in " ".join(found.err.split())


def test_a_paper_nobody_sat_says_how_to_go_on(tmp_path, monkeypatch):
    shelf = Shelf(bank(tmp_path / "bank"))
    keep(str(tmp_path / "s.db"), paper(shelf), ())
    where = ("--bank", str(tmp_path / "bank"), "--store", str(tmp_path / "s.db"))
    found = ran(monkeypatch, "paper", "report", paper(shelf).id, *where)
    assert found.code == 1
    assert "paper mark" in found.err


def test_a_bank_that_changed_since_is_refused_by_name(there, tmp_path, monkeypatch):
    file = tmp_path / "bank" / "safety" / "invented.toml"
    file.write_text(file.read_text(encoding="utf-8").replace("what 1 says", "something else"), encoding="utf-8")
    found = ran(monkeypatch, "paper", "report", *there)
    assert found.code == 1
    assert "safety/invented/safe-1 has changed" in found.err


def test_a_script_with_a_letter_too_many_is_not_read_as_another_answer(tmp_path):
    from quizzer.workflows.papers.reporting import gather

    shelf = Shelf(bank(tmp_path / "bank"))
    made = paper(shelf)
    with pytest.raises(ValueError, match="zip"):
        gather(shelf, made, [AnswerRow("Asha", "A", ("A",) * 11)])
