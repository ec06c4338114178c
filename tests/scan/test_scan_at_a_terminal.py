"""`paper scan` at a real terminal: what it is unsure of is asked. QUIZZER_ACCEPT=1 records the screen anew."""

import csv
import os
from pathlib import Path

import pytest

from quizzer.paper.record import to_json
from tests.cli.running import Ran, ran
from tests.scan.test_scanning import ALL, Room

pty = pytest.importorskip("pty", reason="there are no pseudo-terminals here")
SCREEN = Path(__file__).parents[1] / "golden" / "scan.txt"


@pytest.fixture(scope="module")
def scanned(tmp_path_factory):
    """A folder with a paper and two sheets: Ada's with two answers to 3, and nobody's with two to 5."""
    room = Room(tmp_path_factory.mktemp("scanned"))
    (room.root / "paper.json").write_text(to_json(room.paper), encoding="utf-8")
    room.scanned(room.page(room.seats[0]), {**ALL, 3: "AB"}, "1.jpg")
    room.scanned(room.page(None), {**ALL, 5: "CD"}, "2.jpg")
    return room.root


def scan(monkeypatch: pytest.MonkeyPatch, folder: Path, typed: str | None) -> tuple[Ran, list[list[str]]]:
    """The command, and the rows it wrote; at a pseudo-terminal where these lines are typed, or with none."""
    monkeypatch.chdir(folder)
    (folder / "seats.csv").write_text("seat,name,form\n1,Ada,B\n", encoding="utf-8")
    args = ("paper", "scan", "1.jpg", "2.jpg", "--paper", "paper.json", "--out", "readings.csv", "--plain")
    more = ("--class", "seats.csv", "--bank", str(folder / "bank"), "--store", str(folder / "s.db"))
    if typed is None:
        found = ran(monkeypatch, *args, *more)
    else:
        far, near = pty.openpty()
        try:
            os.write(far, typed.encode())
            with open(near, encoding="utf-8", closefd=False) as keys:
                found = ran(monkeypatch, *args, *more, keys=keys)
        finally:
            os.close(near)
            os.close(far)
    text = (folder / "readings.csv").read_text(encoding="utf-8-sig")
    rows = [row[1:13] for row in csv.reader(text.splitlines())][1:]
    return found, [[cell.removeprefix("'") for cell in row] for row in rows]  # so that no sheet takes - for a sum


def test_what_is_open_is_asked_and_the_table_has_what_was_decided(scanned, monkeypatch):
    found, rows = scan(monkeypatch, scanned, "E\na\nZoe\n-\n")
    if os.environ.get("QUIZZER_ACCEPT"):
        SCREEN.write_text(found.out, encoding="utf-8")
    assert found.out == SCREEN.read_text(encoding="utf-8")
    assert found.code == 0, found.err
    assert rows == [["Ada", "B", *"BCAABCDABC"], ["Zoe", "A", *"BCDA-CDABC"]]


def test_what_the_person_leaves_stays_open(scanned, monkeypatch):
    found, rows = scan(monkeypatch, scanned, "\n\n\n")
    assert found.code == 1
    assert "To be decided" in found.out
    assert rows == [["Ada", "B", *"BC?ABCDABC"], ["", "A", *"BCDA?CDABC"]]
    found, rows = scan(monkeypatch, scanned, "B\n\x04")
    assert found.code == 1, "the end of input leaves the rest"
    assert rows == [["Ada", "B", *"BCBABCDABC"], ["", "A", *"BCDA?CDABC"]]


def test_without_a_terminal_nothing_is_asked(scanned, monkeypatch):
    found, rows = scan(monkeypatch, scanned, None)
    assert found.code == 1
    assert "Enter leaves it" not in found.out
    assert [row[0] for row in rows] == ["Ada", ""]
