"""The screens of weak, ready and plan over an invented centre, whole, and what they refuse."""

import os
import re
from pathlib import Path

import pytest

from scripts.demonstration import fill
from tests.cli.running import ran
from tests.stubbank import stub_bank

GOLDEN = Path(__file__).parent.parent / "golden"
NOW = ("--now", "2026-11-25T07:00+00:00")
PRIYA = ("--trainee", "Priya (invented)")
GROUP = ("--group", "invented centre")
CASES = {
    "weak": ("weak", *PRIYA),
    "weak-topic-plain": ("weak", *PRIYA, "--topic", "design", "--plain"),
    "weak-group": ("weak", *GROUP),
    "weak-group-plain": ("weak", *GROUP, "--plain"),
    "ready": ("ready", *PRIYA),
    "ready-plain": ("ready", *PRIYA, "--plain"),
    "ready-group": ("ready", *GROUP),
    "ready-safety": ("ready", *PRIYA, "--blueprint", "safety"),
    "ready-nobody": ("ready",),
    "plan": ("plan", *PRIYA, "--exam", "in 6 weeks", "--days", "mon,tue,wed,thu,fri"),
    "plan-plain": ("plan", *PRIYA, "--exam", "14 March", "--minutes", "10", "--plain"),
}


@pytest.fixture(scope="module")
def centre(tmp_path_factory):
    folder = tmp_path_factory.mktemp("centre")
    fill(folder / "demo.db", 7, "2026-11-25", stub_bank(folder / "bank"))
    return ("--store", str(folder / "demo.db"), "--bank", str(folder / "bank"), *NOW)


@pytest.mark.parametrize("name", sorted(CASES))
def test_a_screen_is_as_recorded(name, centre, monkeypatch):
    found = ran(monkeypatch, *CASES[name], *centre)
    assert found.code == 0, found.err
    assert max(map(len, found.out.split("\n"))) <= 80
    recorded = GOLDEN / f"{name}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(found.out, encoding="utf-8")
    assert found.out == recorded.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(set(CASES) - {"ready-nobody"}))
def test_every_screen_says_that_the_centre_is_invented_and_none_promises(name):
    text = (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")
    assert "invented" in text
    assert "your assessor decides" in " ".join(text.split())
    assert not re.search(r"you (will|would) pass|: 100 ?%|certain to pass", text)


@pytest.mark.parametrize("name", [name for name in CASES if name.endswith("-plain")])
def test_a_plain_page_is_words_alone(name):
    assert (GOLDEN / f"{name}.txt").read_text(encoding="utf-8").isascii()


def test_study_weak_opens_with_the_weak_sub_topics(tmp_path, monkeypatch):
    fill(tmp_path / "demo.db", 7, "2026-11-25")
    place = ("--store", str(tmp_path / "demo.db"), *NOW, "--seed", "1")
    found = ran(monkeypatch, "study", "--weak", *PRIYA, "--count", "1", *place)
    assert found.code == 0
    first = re.search(r"Weak sub-topics first: ([\w-]+)/", found.out)
    assert first
    assert "question 1 of 1" in found.out


def test_files_are_written(centre, monkeypatch, tmp_path):
    for args, name, begin in (
        (("ready", *PRIYA, "--out"), "r.svg", "<svg"),
        (("weak", *PRIYA, "--out"), "w.svg", "<svg"),
        (("weak", *GROUP, "--out"), "w.txt", "Weak topics"),
        (("plan", *PRIYA, "--ics"), "p.ics", "BEGIN:VCALENDAR\r\n"),
    ):
        found = ran(monkeypatch, *args, str(tmp_path / name), *centre)
        assert found.code == 0, found.err
        assert (tmp_path / name).read_bytes().decode().startswith(begin)
    assert "invented" in (tmp_path / "r.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("args", "code", "words"),
    [
        (("ready", *PRIYA, *GROUP), 2, "exclude each other"),
        (("ready", "--trainee", "Pria (invented)"), 1, "did you mean 'Priya (invented)'"),
        (("ready", "--group", "nobody"), 1, "no group"),
        (("ready", "--blueprint", "wiring"), 1, "no blueprint"),
        (("ready", *PRIYA, "--exam", "2026-11-20"), 2, "has passed"),
        (("ready", *PRIYA, "--exam", "in 400 years"), 2, "years away"),
        (("ready", *PRIYA, "--exam", "in 9999 years"), 2, "no day"),
        (("ready", *PRIYA, "--exam", "whenever"), 2, "no day"),
        (("ready", *PRIYA, "--out", "x.pdf"), 2, ".svg or .txt"),
        (("ready", *GROUP, "--out", "x.svg"), 2, "no plots of a group"),
        (("ready", *PRIYA, "--out", "/nowhere/x.svg"), 1, "cannot be written"),
        (("weak", *PRIYA, "--topic", "desing"), 1, "did you mean 'design'"),
        (("plan", *PRIYA, "--minutes", "nan"), 2, "no length"),
        (("plan", *PRIYA, "--days", "mon,someday"), 2, "no days of the week"),
        (("plan",), 2, "no exam day to plan for"),
    ],
)
def test_a_refusal_is_one_sentence(args, code, words, centre, monkeypatch):
    found = ran(monkeypatch, *args, *centre)
    assert found.code == code
    assert words in found.err
    assert len(found.err.strip().split("\n")) == 1
