"""A set of diagnoses for marks at the keyboard, held to a recorded screen. QUIZZER_ACCEPT=1 records anew."""

import os
from datetime import datetime, timedelta
from itertools import count
from pathlib import Path

import pytest

from quizzer.cli import opening
from quizzer.workflows.faults.drawing_sets import exercises_of
from tests.cli.running import ran

GOLDEN = Path(__file__).parent.parent / "golden" / "diagnose-assessed.txt"
SET = ("diagnose", "--assessed", "--shape", "two-way", "--count", "3", "--minutes", "30", "--seed", "1")
SAFE = "look; isolate; lock; prove indicator; prove dead; prove indicator; disconnect"
TYPED = ("", SAFE, "r1r2", "q", "", "test 2", "q")


def typed(monkeypatch, place, *args, lines=TYPED, **how):
    text = "".join(f"{line}\n" for line in lines)
    now = ("--now", "2026-11-25T07:00+00:00")
    return ran(monkeypatch, *SET, *args, "--store", str(place / "s.db"), *now, typed=text, **how)


def test_a_set_that_is_left_half_way_is_as_recorded(monkeypatch, tmp_path):
    found = typed(monkeypatch, tmp_path)
    assert found.code == 0, found.err
    assert max(map(len, found.out.split("\n"))) <= 80
    if os.environ.get("QUIZZER_ACCEPT"):
        GOLDEN.write_text(found.out, encoding="utf-8")
    assert found.out == GOLDEN.read_text(encoding="utf-8")


def test_the_recorded_set_says_what_it_should():
    words = " ".join(GOLDEN.read_text(encoding="utf-8").split())
    assert "3 exercises in 30 minutes, level 1." in words
    assert "CAUTION" in words
    assert "30 min left" in words
    assert "0 of 2 passed; 1 not begun." in words
    assert "NOT PASSED, stopped unsafe" in words
    assert "seed" not in words.partition("not begun")[0]  # nobody looks the fault up while it is played


def test_the_guide_shows_the_end_of_the_recorded_set():
    guide = (GOLDEN.parents[2] / "quizzer" / "guide" / "trainee.md").read_text(encoding="utf-8")
    title, end = "Fault finding for marks", GOLDEN.read_text(encoding="utf-8")
    assert end[end.rindex(title) :].strip() in guide


def test_progress_tells_of_the_set_and_the_file_holds_the_marks(monkeypatch, tmp_path):
    marks = tmp_path / "marks.txt"
    found = typed(monkeypatch, tmp_path, "--out", str(marks))
    assert "Written:" in found.out
    assert "NOT PASSED, stopped unsafe" in marks.read_text(encoding="utf-8")
    told = ran(monkeypatch, "progress", "--store", str(tmp_path / "s.db"), "--now", "2026-11-25T08:00+00:00")
    assert "25 Nov: 0 of 2 passed; 1 not found; 1 stopped unsafe" in told.out


def test_the_marks_are_written_as_pdf(monkeypatch, tmp_path):
    typed(monkeypatch, tmp_path, "--out", str(tmp_path / "marks.pdf"))
    assert (tmp_path / "marks.pdf").read_bytes().startswith(b"%PDF-")


def test_what_is_typed_after_the_time_is_not_done(monkeypatch, tmp_path):
    """The clock is read many times for an exercise; each reading is a minute later here."""
    minutes = count()
    began = datetime.fromisoformat("2026-11-25T07:00+00:00").astimezone()
    monkeypatch.setattr(opening, "_clock", lambda _: lambda: began + timedelta(minutes=next(minutes)))
    found = typed(monkeypatch, tmp_path, lines=("", *["look"] * 40, ""))
    assert "1 of 3: out of time. The time is up." in found.out
    assert found.out.count("min left") < 40
    assert "2 not begun" in found.out


def test_an_end_of_input_keeps_what_was_done(monkeypatch, tmp_path):
    found = typed(monkeypatch, tmp_path, lines=("", SAFE))
    assert found.code == 0, found.err
    assert "0 of 1 passed; 2 not begun." in found.out


def test_a_whole_set_can_be_passed(monkeypatch, tmp_path):
    """Each exercise is played from what the program says of it: the fault's number in the lists of `name`."""
    lines = [""]
    for drawn in exercises_of("cooker", 1, 1, 2):
        lines += [*_played_well(drawn.play), ""]
    args = ("diagnose", "--assessed", "--shape", "cooker", "--count", "2", "--seed", "1")
    text = "".join(f"{line}\n" for line in lines)
    found = ran(monkeypatch, *args, "--store", str(tmp_path / "s.db"), typed=text)
    assert "2 of 2 passed." in found.out, found.out


def _played_well(play):
    every = "; ".join(f"test {n + 1}" for n in play.allowed if n and not play.tests[n].instrument.live)
    first = "; ".join(f"test {n + 1}" for duty in play.first_duties for n in duty.tests)
    last = "; ".join(f"test {n + 1}" for duty in play.last_duties for n in duty.tests)
    families = list(dict.fromkeys(each.fault.family for each in play.suspects))
    says = [each.fault.say for each in play.suspects if each.fault.family == play.fault.family]
    number = says.index(play.fault.say) + 1
    name = ["name", str(families.index(play.fault.family) + 1), *([str(number)] if len(says) > 1 else [])]
    supply = {"incoming", "origin"}
    able = [n for n in play.allowed if play.tests[n].instrument.live and play.tests[n].uses not in supply]
    in_use = "; ".join(f"test {n + 1}" for n in able)
    live = [] if play.dead_shows else [first, "energise", in_use, SAFE]
    return [SAFE.replace("isolate;", "isolate all;"), every, *live, *name, "repair", first, "energise", last, "certify"]


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (("--assessed", "--count", "0"), "--count 0"),
        (("--assessed", "--minutes", "0"), "--minutes 0"),
        (("--assessed", "--out", "marks.svg"), "marks.svg"),
        (("--assessed", "--shape", "spiral"), "spiral"),
        (("--assessed", "--svg", "d.svg"), "--svg"),
        (("--count", "3"), "add --assessed"),
        (("--minutes", "3"), "add --assessed"),
    ],
)
def test_what_makes_no_sense_is_refused_before_anything_is_kept(monkeypatch, tmp_path, args, words):
    found = ran(monkeypatch, "diagnose", *args, "--store", str(tmp_path / "s.db"))
    assert found.code == 2
    assert words in found.err
    assert not (tmp_path / "s.db").exists()
