"""Diagnoses played from the keyboard, held to recorded screens. QUIZZER_ACCEPT=1 records anew."""

import os
from pathlib import Path

import pytest

from tests.cli.running import ran

GOLDEN = Path(__file__).parent.parent / "golden"
PROVED = ("prove indicator", "prove dead", "prove indicator", "disconnect")
SAFE = ("look", "isolate", "lock", *PROVED)
# Name: shape, level, seed, and what is typed.
PLAYED = {
    "diagnose-ring": (
        "ring",
        3,
        28,
        (
            *SAFE,
            "ring",
            "r1r2",
            "name",
            "3",
            "3",
            "repair",
            "ring",
            "r1rn",
            "r1r2",
            "ir",
            "energise",
            "zs",
            "rcd",
            "certify",
            "replay",
        ),
    ),
    "diagnose-lights": (
        "lighting",
        3,
        42,
        (
            *SAFE,
            "isolate all",
            "lock",
            *PROVED,
            "cpc",
            "r1rn",
            "next neutral",
            "test nine",
            "name",
            "12",
            "3",
            "repair",
            "cpc",
            "ir",
            "energise",
            "rcd",
            "switching",
            "certify",
        ),
    ),
    "diagnose-starter": (
        "forward-reverse",
        3,
        16,
        (
            "look",
            "operate",
            "isolate",
            "lock",
            "prove indicator",
            "prove dead",
            "prove indicator",
            "prove indicator",
            "prove dead",
            "isolate",
            "lock",
            *PROVED,
            "cpc; lines; poles; contacts open; interlocks",
            "rungs",
            "contacts moved",
            "hold in",
            "ir",
            "energise",
            "control voltage",
            "isolate; lock; prove indicator; prove dead; prove indicator; disconnect",
            "name other rung",
            "1",
            "repair",
            "cpc; lines; poles; contacts open; interlocks; rungs; ir; energise; operate; certify",
        ),
    ),
    "diagnose-starter-tests": ("start-stop", 1, 7, ("tests", "drawing", "q")),
    "diagnose-stopped": ("radial", 3, 1, ("look", "isolate", "test 2", "again", "lock off", "q")),
    "diagnose-tests": ("cooker", 1, 4, ("tests", "nonsense", "test 99", "test 2", "q")),
}


@pytest.mark.parametrize("name", PLAYED)
def test_a_played_diagnosis_is_as_recorded(name, monkeypatch, tmp_path):
    shape, level, seed, typed = PLAYED[name]
    args = ("diagnose", "--shape", shape, "--level", str(level), "--seed", str(seed))
    found = ran(monkeypatch, *args, "--svg", str(tmp_path / "d.svg"), typed="".join(f"{line}\n" for line in typed))
    assert found.code == 0, found.err
    assert max(map(len, found.out.split("\n"))) <= 80
    assert "CAUTION" in found.out
    assert "aria-label=" in (tmp_path / "d.svg").read_text(encoding="utf-8")
    recorded = GOLDEN / f"{name}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(found.out, encoding="utf-8")
    assert found.out == recorded.read_text(encoding="utf-8")


def test_the_recorded_diagnoses_end_as_they_should():
    read = {name: (GOLDEN / f"{name}.txt").read_text(encoding="utf-8") for name in PLAYED}
    assert "RIGHT: found and told from all else" in read["diagnose-ring"]
    assert "Minor works certificate: an exercise" in read["diagnose-ring"]
    assert "NOT PASSED: signed, and after the repair not proved: earth fault loop." in read["diagnose-lights"]
    assert "STOPPED FOR SAFETY" in read["diagnose-stopped"]
    assert "It begins anew" in read["diagnose-stopped"]


def test_an_unknown_shape_is_refused(monkeypatch):
    found = ran(monkeypatch, "diagnose", "--shape", "spiral")
    assert found.code == 2
    assert "ring" in found.err


def test_the_guide_shows_the_end_and_what_to_type_for_it():
    guide = GOLDEN.parent.parent / "quizzer" / "guide" / "trainee.md"
    readme = " ".join(guide.read_text(encoding="utf-8").split())
    ending = (GOLDEN / "diagnose-ring.txt").read_text(encoding="utf-8").partition("How it ended")[2]
    assert " ".join(ending.partition("Type replay")[0].split()) in readme
    for name in ("diagnose-ring", "diagnose-lights", "diagnose-stopped"):
        assert "`, `".join(line for line in PLAYED[name][3] if line != "test nine") in readme
