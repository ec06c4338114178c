"""The worklist goes through the book once, and comes back as a table of sign-offs: all of it or nothing."""

import csv
import io
import random

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import ledger
from quizzer.workflows.bank.signing import unsigned
from quizzer.workflows.bank.worklist import reference, worklist
from tests.cli.running import ran
from tests.sitting import small_bank

FIRST, SECOND = "circuits/first/series-current", "principles/first/divider"


@pytest.fixture
def root(tmp_path):
    return small_bank(tmp_path / "bank")


# The order of the book itself: Parts, chapters, regulations by number; tables behind their chapter; appendices last.
IN_ORDER = (
    ("BS 7671 Regulation 114.1; publishers' notes", "114.1"),
    ("BS 7671 Part 2 (TN-C-S system)", "Part 2"),
    ("BS 7671 contents list, Chapter 41", "Chapter 41"),
    ("BS 7671 Section 411; IEC 60228 conductor resistances", "411"),
    ("BS 7671 Regulation 411.3.3", "411.3.3"),
    ("BS 7671 Regulations 411.5 and 542.2", "411.5"),
    ("limits of BS 7671 Tables 41.3 and 64, 531.3.2", "Table 41.3"),
    ("HSE HSG85; BS 7671 Regulation 643.1 (dead tests)", "643.1"),
    ("BS 7671 Table 64", "Table 64"),
    ("BS 7671 Regulation 722.531.3.101", "722.531.3.101"),
    ("BS 7671; Appendix 4", "Appendix 4"),
    ("BS 7671 Table 4D5", "Table 4D5"),
    ("BS 7671:2018+A4:2026 Appendix 6", "Appendix 6"),
    ("Electricity at Work Regulations 1989, regulation 14", ""),
)


def test_places_are_read_from_sources_and_stand_in_the_order_of_the_book():
    places = [reference(source) for source, _ in IN_ORDER]
    assert [place.text for place in places] == [text for _, text in IN_ORDER]
    shuffled = random.Random("book").sample(places, len(places))
    assert sorted(shuffled) == places


def test_a_number_of_another_publication_is_no_place_in_the_book():
    assert reference("J. Bird, chapter 19, page 305; BS 7671").text == ""
    assert reference("BS 7671 Section 525; IEC 60228 table 411.3").text == "525"


def test_every_entry_stands_on_the_worklist_once(root):
    still, _ = unsigned(Shelf(root))
    assert sorted(each.id for part in worklist(still) for _, each in part.rows) == sorted(each.id for each in still)


def table(tmp_path, *rows):
    path = tmp_path / "list.csv"
    path.write_text("\n".join(("entry,by,edition", *rows)) + "\n", encoding="utf-8")
    return path


def test_the_worklist_filled_in_signs_off_what_was_filled_in(root, tmp_path, monkeypatch):
    bank, out = ("--bank", str(root)), tmp_path / "work.csv"
    assert ran(monkeypatch, "topics", "--unsigned", "--by-regulation", "--out", str(out), *bank).code == 0
    heads, *rows = csv.reader(io.StringIO(out.read_text(encoding="utf-8-sig")))
    assert sorted(row[0] for row in rows) == [FIRST, SECOND, "safety/first/prove-test-prove"]
    lines = [f"{id},Farah,A4" if id == FIRST else f"{id},," for id, *_ in rows]
    found = ran(monkeypatch, "signoff", "--from", str(table(tmp_path, *lines)), *bank)
    assert heads == ["entry", "by", "edition"]
    assert (found.code, "1 entry signed off" in found.out) == (0, True)
    assert [each.entry for each in ledger(root).signoffs] == [FIRST]


@pytest.mark.parametrize(
    ("bad", "line", "why"),
    [
        ("no/such/entry,Farah,A4", 3, "no entry 'no/such/entry'"),
        (f"{SECOND},Farah,", 3, "edition is empty"),
        (f"{SECOND},,A4", 3, "by is empty"),
        (f"{FIRST},Noor,A4", 3, "stands in line 2 already"),
        (f"{SECOND},Farah", 3, "2 cells where the first line names 3"),
    ],
)
def test_one_bad_row_and_nothing_is_signed(root, tmp_path, monkeypatch, bad, line, why):
    path = table(tmp_path, f"{FIRST},Farah,A4", bad)
    found = ran(monkeypatch, "signoff", "--from", str(path), "--bank", str(root))
    assert found.code == 1
    assert f"list.csv:{line}: " in found.err
    assert why in " ".join(found.err.split())
    assert not (root / "signoffs.toml").exists()


def test_every_bad_row_is_told_at_once(root, tmp_path, monkeypatch):
    path = table(tmp_path, "a/b/c,Farah,A4", f"{FIRST},Farah,", "d/e/f,Farah,A4")
    found = ran(monkeypatch, "signoff", "--from", str(path), "--bank", str(root))
    assert [f"list.csv:{line}: " in found.err for line in (2, 3, 4)] == [True, True, True]


def test_a_table_that_nobody_filled_in_is_told(root, tmp_path, monkeypatch):
    found = ran(monkeypatch, "signoff", "--from", str(table(tmp_path, f"{FIRST},,")), "--bank", str(root))
    assert (found.code, "no row below names who checked" in " ".join(found.err.split())) == (1, True)


@pytest.mark.parametrize(
    "words",
    [
        ("signoff", FIRST),
        ("signoff", "--from", "list.csv", "--by", "Farah"),
        ("signoff",),
        ("topics", "--by-regulation"),
        ("topics", "--unsigned", "--out", "list.pdf"),
        ("topics", "--currency", "--unsigned"),
        ("topics", "--unsigned", "--by-regulation", "--out", "list.doc"),
    ],
)
def test_options_that_make_no_sense_are_told(root, monkeypatch, words):
    found = ran(monkeypatch, *words, "--bank", str(root))
    assert (found.code, found.out) == (2, "")


def test_a_table_that_is_not_there_is_told(root, tmp_path, monkeypatch):
    found = ran(monkeypatch, "signoff", "--from", str(tmp_path / "none.csv"), "--bank", str(root))
    assert (found.code, "cannot be read" in " ".join(found.err.split())) == (1, True)


def test_the_worklist_is_printed_with_a_box_for_each_entry(root, tmp_path, monkeypatch):
    out = tmp_path / "work.pdf"
    found = ran(monkeypatch, "topics", "--unsigned", "--by-regulation", "--out", str(out), "--bank", str(root))
    assert (found.code, out.read_bytes()[:5]) == (0, b"%PDF-")
    shown = ran(monkeypatch, "topics", "--unsigned", "--by-regulation", "--bank", str(root)).out
    assert shown.count("[  ]") == 3


def test_currency_is_counted_by_topic(root, monkeypatch):
    path = root / "circuits" / "first.toml"
    path.write_text(path.read_text().replace("not tied to an edition", "BS 7671:2018+A2:2022+A3:2024"))
    assert ran(monkeypatch, "signoff", FIRST, "--by", "F", "--edition", "+A4:2026", "--bank", str(root)).code == 0
    lines = ran(monkeypatch, "topics", "--currency", "--bank", str(root)).out.split("\n")
    assert [line.split() for line in lines if line.startswith(("circuits", "all"))] == [
        ["circuits", "0", "0", "1", "1"],
        ["all", "2", "0", "1", "1"],
    ]
