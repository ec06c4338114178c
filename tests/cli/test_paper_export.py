"""`paper export`: a form of a paper in a file, in four formats."""

import csv
import io
import json
import zipfile
from datetime import date

import pytest

from quizzer.paper.record import Form, Item, Paper, Section, to_json
from quizzer.question.making import make
from tests.cli.running import ran
from tests.shippedbank import SHELF


@pytest.fixture(scope="module")
def recorded():
    """The record of a paper of two forms, made from the shipped bank."""
    entries = [entry for _, loaded in SHELF.everything() for entry in loaded.entries][:300]
    asked = [(each, question) for each in entries if (question := make(each, 3)).kind == "choose"][:6]
    items = [Item(each.head.id, 3, each.head.digest, "s", question.key) for each, question in asked]
    forms = (Form("A", "A", "", tuple(items[:3])), Form("B", "B", "", tuple(items[3:])))
    sections = (Section("s", "All of it", 3, False),)
    paper = Paper("mine-1", "Mine", "mine", "A3", date(2026, 11, 25).isoformat(), 1, 10, 2, (), sections, forms)
    return to_json(paper)


@pytest.fixture
def folder(tmp_path, monkeypatch, recorded):
    """A folder with the record of the paper."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "made").mkdir()
    (tmp_path / "made" / "paper.json").write_text(recorded, encoding="utf-8")
    return tmp_path / "made"


@pytest.mark.parametrize("kind", ["qti22", "qti3"])
def test_a_package_holds_an_item_for_each_question(folder, monkeypatch, kind):
    done = ran(monkeypatch, "paper", "export", str(folder), "--format", kind, "--form", "B", "--out", "b.zip")
    assert (done.code, done.err) == (0, "")
    assert "Form B, 3 questions with their keys: b.zip" in done.out
    assert "not certified" in done.out
    names = zipfile.ZipFile("b.zip").namelist()
    assert names == ["imsmanifest.xml", "test.xml", *(f"items/Q00{at}.xml" for at in (1, 2, 3))]


def test_json_and_csv_hold_the_same_questions(folder, monkeypatch):
    for kind in ("json", "csv"):
        path = str(folder / "paper.json")
        assert ran(monkeypatch, "paper", "export", path, "--format", kind, "--form", "a").code == 0
    with open("mine-1-A.json", encoding="utf-8") as file:  # noqa: PTH123  a test of what a person would open
        told = json.load(file)
    with open("mine-1-A.csv", encoding="utf-8-sig", newline="") as file:  # noqa: PTH123
        rows = list(csv.DictReader(io.StringIO(file.read(), newline="")))
    assert [each["key"] for each in told["questions"]] == [row["key"] for row in rows]
    assert [f"{each['id']} {each['seed']}" for each in told["questions"]] == [
        f"{row['entry']} {row['seed']}" for row in rows
    ]
    assert (told["form"], told["pass_mark"], told["questions"][2]["number"]) == ("A", 2, 3)


@pytest.mark.parametrize(
    ("more", "code", "words"),
    [
        (["--form", "A", "--format", "docx"], 2, "one of qti22, qti3, csv, json"),
        ([], 2, "say which with --form: A, B"),
        (["--form", "C"], 1, "no form 'C'"),
        (["--form", "A", "--out", "no/such/place.zip"], 1, "cannot be written"),
    ],
)
def test_what_cannot_be_done_is_refused_with_a_mend(folder, monkeypatch, more, code, words):
    done = ran(monkeypatch, "paper", "export", str(folder), *more)
    assert done.code == code
    assert words in " ".join(done.err.split())


def test_a_file_that_is_there_is_replaced_only_when_it_is_named(folder, monkeypatch):
    wanted = ["paper", "export", str(folder), "--form", "A", "--format", "csv"]
    assert ran(monkeypatch, *wanted).code == 0
    again = ran(monkeypatch, *wanted)
    assert again.code == 1
    assert "is there already" in again.err
    assert ran(monkeypatch, *wanted, "--out", "mine-1-A.csv").code == 0


def test_a_paper_whose_entry_has_changed_since_is_refused(folder, monkeypatch):
    record = folder / "paper.json"
    told = json.loads(record.read_text(encoding="utf-8"))
    told["forms"][0]["items"][0]["digest"] = "other"
    record.write_text(json.dumps(told), encoding="utf-8")
    done = ran(monkeypatch, "paper", "export", str(folder), "--form", "A")
    assert done.code == 1
    assert "has changed" in done.err
    assert not list(folder.parent.glob("*.zip"))


def test_a_paper_is_printed_again_from_its_record_byte_for_byte(folder, monkeypatch):
    for out in ("one", "two"):
        done = ran(monkeypatch, "paper", "print", str(folder), "--out", out, "--large-print", "24", "--wide-spaced")
        assert (done.code, done.err) == (0, "")
    one, two = ({path.name: path.read_bytes() for path in (folder.parent / out).rglob("*.*")} for out in ("one", "two"))
    assert one == two
    assert {"A-paper.pdf", "B-paper-large-print-24.pdf", "A-mark-scheme-wide-spaced.pdf", "answers.csv"} <= set(one)
    assert one["paper.json"] == (folder / "paper.json").read_bytes()


def test_a_size_nobody_prints_is_refused(folder, monkeypatch):
    done = ran(monkeypatch, "paper", "print", str(folder), "--large-print", "19", "--out", "x")
    assert done.code == 2
    assert "18 or 24" in done.err
