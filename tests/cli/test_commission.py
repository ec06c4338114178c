"""A commissioning played from the keyboard, held to recorded screens. QUIZZER_ACCEPT=1 records anew."""

import os
from datetime import datetime, timedelta
from itertools import count
from pathlib import Path

import pytest

from quizzer.cli import opening
from quizzer.workflows.faults.commissioning import commissioned
from tests.circuit.commission_typing import lines_of
from tests.circuit.commissioners import best_commands
from tests.cli.running import ran

GOLDEN = Path(__file__).parent.parent / "golden"
SAFE = "inspect 0; isolate; lock; prove indicator; prove dead; prove indicator; loads out; inspect all"
# Name: options, and what is typed.
PLAYED = {
    "commission-flat": (
        ("--size", "flat", "--level", "1", "--seed", "1"),
        (SAFE, "null; bonds", "0.03 0.01", "r1r2", "0.2 0.9", "", "note 2", "", "nonsens",
          "zs 1", "q", "marks", "", ""),
    ),
    "commission-stopped": (
        ("--size", "house", "--level", "2", "--seed", "2"),
        ("details", "isolate; lock", "r1r2 1", "replay", "", ""),
    ),
    "commission-periodic": (
        ("--size", "flat", "--level", "2", "--seed", "3", "--periodic"),
        ("help", SAFE, "null; r1r2", "", "note 1", "1", "2", "notes", "schedule",
         "strike 1", "refuse", "marks", "", ""),
    ),
}  # fmt: skip


def commission(monkeypatch, options, lines):
    return ran(monkeypatch, "commission", *options, typed="".join(f"{line}\n" for line in lines))


@pytest.mark.parametrize("name", PLAYED)
def test_a_played_commissioning_is_as_recorded(name, monkeypatch):
    found = commission(monkeypatch, *PLAYED[name])
    assert found.code == 0, found.err
    assert max(map(len, found.out.split("\n"))) <= 80
    assert "CAUTION" in found.out
    recorded = GOLDEN / f"{name}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(found.out, encoding="utf-8")
    assert found.out == recorded.read_text(encoding="utf-8")


def test_the_recorded_ends_say_what_they_should():
    read = {name: (GOLDEN / f"{name}.txt").read_text(encoding="utf-8") for name in PLAYED}
    assert "NOT PASSED" in read["commission-flat"]
    assert "STOPPED FOR SAFETY" in read["commission-stopped"]
    assert "unsatisfactory" in read["commission-periodic"]
    for text in read.values():
        last = text[text.rindex("How it ended") :]
        assert len(last.splitlines()) <= 24
        assert "no certificate" in " ".join(last.split())


@pytest.mark.parametrize(
    ("size", "level", "seed", "periodic"),
    [("flat", 1, 4, False), ("house", 2, 2, False), ("workshop", 3, 1, False), ("flat", 3, 2, True)],
)
def test_the_best_play_typed_by_hand_loses_nothing(size, level, seed, periodic, monkeypatch, tmp_path):
    play = commissioned(size, level, seed, periodic=periodic)
    options = ["--size", size, "--level", str(level), "--seed", str(seed), "--out", str(tmp_path / "s.pdf")]
    found = commission(monkeypatch, [*options, *(["--periodic"] if periodic else [])],
                       [*lines_of(play, best_commands(play)), ""])  # fmt: skip
    assert "PASSED: nothing was lost." in found.out, found.out[-3000:]
    assert (tmp_path / "s.pdf").read_bytes().startswith(b"%PDF-")


def test_an_inspection_with_a_way_left_out_by_agreement_is_typed_to_its_end(monkeypatch):
    """The job names the limitation, the tester is not put on that way, and its fields say LIM."""
    play = commissioned("flat", 2, 204, periodic=True)
    assert play.limited == 5
    typed = lines_of(play, best_commands(play))
    at = next(n for n, line in enumerate(typed) if line.startswith("ir "))
    lim = typed.index("record ir 5 lim lim")
    lines = [
        "job",
        *typed[:at],
        "ir 250 5",
        *typed[at:lim],
        "record ir 5 lim",
        *typed[lim + 1 : -1],
        "notes",
        "schedule",
    ]
    options = ("--size", "flat", "--level", "2", "--seed", "204", "--periodic")
    found = commission(monkeypatch, options, [*lines, "unsatisfactory", "marks", "", "schedule", "", ""])
    assert "the alarms of way 5 are not tested for insulation" in " ".join(found.out.split())
    assert "Way 5 is left out: it was agreed" in found.out
    assert "PASSED: nothing was lost." in found.out, found.out[-3000:]
    assert "Right: way 1: the ring is bridged across: C3 or C2" in " ".join(found.out.split())
    row = next(line for line in found.out.split("\n") if line.startswith("5 ") and "LIM" in line)
    assert row.split()[5:8] == ["-", "LIM", "LIM"]
    assert max(map(len, found.out.split("\n"))) <= 80


def test_several_ways_that_were_left_off_are_recorded_in_one_line(monkeypatch):
    options = ("--size", "flat", "--level", "2", "--seed", "3")
    found = commission(monkeypatch, options, ("record zs 1-3 lim", "record zs lim", "schedule", "q", "", ""))
    rows = [line.split() for line in found.out.split("\n") if line[:2] in {"1 ", "2 ", "3 ", "4 "} and "..." in line]
    assert [row[9] for row in rows] == ["LIM", "LIM", "LIM", "..."]


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (("--size", "castle"), "castle"),
        (("--level", "4"), "4"),
        (("--seed", "-1"), "-1"),
        (("--out", "schedule.txt"), "schedule.txt"),
        (("--trainee", "Anna"), "--assessed"),
    ],
)
def test_what_makes_no_sense_is_refused(monkeypatch, options, words):
    found = commission(monkeypatch, options, ["q"])
    assert found.code == 2
    assert words in found.err


def test_marks_are_kept_and_progress_tells_of_them(monkeypatch, tmp_path):
    play = commissioned("flat", 1, 4, periodic=False)
    kept = ("--store", str(tmp_path / "s.db"), "--now", "2026-11-25T07:00+00:00")
    options = ("--size", "flat", "--level", "1", "--assessed", *kept)
    passed = commission(monkeypatch, (*options, "--seed", "4"), [*lines_of(play, best_commands(play)), "again"])
    assert "passed; kept" in passed.out
    assert passed.out.count("How it ended") == 1
    stopped = commission(monkeypatch, (*options, "--seed", "5"), ["bonds", ""])
    assert "stopped unsafe; kept" in stopped.out
    assert "Next:" not in stopped.out
    told = ran(monkeypatch, "progress", *kept)
    assert "Commissioning for marks" in told.out
    assert "25 Nov: 1 of 2 passed; 1 stopped unsafe" in told.out
    assert "Fault finding for marks" not in told.out
    assert "testing" in ran(monkeypatch, "weak", *kept).out.lower()


def test_a_bank_without_the_question_keeps_nothing(monkeypatch, tmp_path):
    (tmp_path / "bank").mkdir()
    kept = ("--store", str(tmp_path / "s.db"), "--bank", str(tmp_path / "bank"), "--seed", "4", "--assessed")
    assert "not kept" in commission(monkeypatch, kept, ["q", ""]).out


def test_what_is_typed_after_the_time_is_not_done(monkeypatch):
    """The clock is read several times for each line; each reading is a minute later here."""
    minutes, began = count(), datetime.fromisoformat("2026-11-25T07:00+00:00").astimezone()
    monkeypatch.setattr(opening, "_clock", lambda _: lambda: began + timedelta(minutes=next(minutes)))
    found = commission(monkeypatch, ("--level", "3", "--seed", "1"), ["job"] * 60)
    assert "the time was up" in found.out
    assert found.out.count("min left") < 40


def test_an_end_of_input_ends_it_without_a_trace(monkeypatch):
    found = commission(monkeypatch, ("--seed", "1"), ["isolate"])
    assert found.code == 0
    assert "Left before the end." in found.out
    assert "Traceback" not in found.err


def test_insulation_goes_back_to_500_volts_where_no_volts_are_typed(monkeypatch):
    typed = (SAFE, "null; bonds", "", "r1r2", "", "ring", "", "ir 250 5", "", "ir 250 1", "ir 1-4 6", "", "q", "", "")
    found = commission(monkeypatch, ("--size", "flat", "--level", "2", "--seed", "221"), typed)
    assert "tester is set to 500 V" in found.out
    assert "500 V is still owed on way 1:" in found.out
    assert found.out.count("1 Sockets: insulation at 250 V") == 1
    assert "4 Shower: insulation at 250 V" not in found.out


def test_a_look_without_a_way_takes_no_cover_off_before_all_is_proved_dead(monkeypatch):
    options = ("--size", "flat", "--level", "2", "--seed", "3")
    covered = commission(monkeypatch, options, ("look", "q", "", ""))
    assert "STOPPED" not in covered.out
    assert "Intake:" in covered.out
    assert "1 Sockets" not in covered.out
    opened = commission(monkeypatch, options, (SAFE.replace("inspect all", "look"), "q", "", ""))
    assert "STOPPED" not in opened.out
    assert "1 Sockets" in opened.out
    named = commission(monkeypatch, options, ("look 1", "", ""))
    assert "covers were taken off before everything was proved dead" in named.out
