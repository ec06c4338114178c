"""The screens of weak, ready and plan over an invented centre, whole, and what they refuse."""

import os
import re
import shutil
from pathlib import Path

import pytest

from scripts.demonstration import fill
from tests.cli.running import ran
from tests.render.forms import catalogue, tags, words
from tests.stubbank import stub_bank

GOLDEN = Path(__file__).parent.parent / "golden"
NOW = ("--now", "2026-11-25T07:00+00:00")
PRIYA = ("--trainee", "Priya (invented)")
GROUP = ("--group", "invented centre")
CASES = {
    "weak": ("weak", *PRIYA),
    "weak-topic-plain": ("weak", *PRIYA, "--topic", "design", "--plain"),
    "weak-group": ("weak", *GROUP),
    "weak-group-topic": ("weak", *GROUP, "--topic", "design"),
    "weak-group-plain": ("weak", *GROUP, "--plain"),
    "ready": ("ready", *PRIYA),
    "ready-plain": ("ready", *PRIYA, "--plain"),
    "ready-today": ("ready", *PRIYA, "--exam", "today"),
    "ready-group": ("ready", *GROUP),
    "ready-safety": ("ready", *PRIYA, "--blueprint", "safety"),
    "ready-nobody": ("ready",),
    "plan": ("plan", *PRIYA, "--exam", "in 6 weeks", "--days", "mon,tue,wed,thu,fri"),
    "plan-today": ("plan", *PRIYA, "--exam", "today"),
    "plan-far": ("plan", *PRIYA, "--exam", "in 2 years", "--minutes", "40", "--days", "sat"),
    "plan-nobody": ("plan",),
    "progress": ("progress", *PRIYA),
    "plan-plain": ("plan", *PRIYA, "--exam", "14 March", "--minutes", "10", "--plain"),
}
NARROW = ("weak", "weak-group", "ready", "ready-group", "plan", "progress")


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


@pytest.mark.parametrize("columns", [60, 40])
@pytest.mark.parametrize("name", NARROW)
def test_a_narrow_screen_is_as_recorded_and_breaks_no_word(name, columns, centre, monkeypatch):
    found = ran(monkeypatch, *CASES[name], *centre, columns=columns).out
    whole = {word.rstrip(";:") for word in (GOLDEN / f"{name}.txt").read_text(encoding="utf-8").split()}
    assert max(map(len, found.split("\n"))) <= columns
    assert not {word.rstrip(";:") for word in found.split() if word.isalpha()} - whole
    recorded = GOLDEN / f"{name}-{columns}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(found, encoding="utf-8")
    assert found == recorded.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(set(CASES) - {"ready-nobody", "plan-nobody", "progress"}))
def test_every_screen_says_that_the_centre_is_invented_and_none_promises(name):
    text = (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")
    assert "invented" in text
    assert "your assessor decides" in " ".join(text.split())
    assert not re.search(r"you (will|would) pass|: 100 ?%|certain to pass", text)


@pytest.mark.parametrize("name", [name for name in CASES if name.endswith("-plain")])
def test_a_plain_page_is_words_alone(name):
    assert (GOLDEN / f"{name}.txt").read_text(encoding="utf-8").isascii()


def test_study_weak_opens_with_the_weak_sub_topics(centre, tmp_path, monkeypatch):
    shutil.copy(centre[1], tmp_path / "demo.db")
    place = (
        "--store",
        str(tmp_path / "demo.db"),
        *NOW,
        "--seed",
        "1",
    )  # its answers, and questions of the shipped bank
    found = ran(monkeypatch, "study", "--weak", *PRIYA, "--count", "1", *place)
    assert found.code == 0
    first = re.search(r"Weak sub-topics first: ([\w-]+)/", found.out)
    assert first
    assert "question 1 of 1" in found.out


def test_after_the_exam_the_headers_and_the_plan_say_that_it_has_passed(tmp_path, monkeypatch):
    place = ("--store", str(tmp_path / "s.db"))
    ran(monkeypatch, "trainee", "set", "--exam", "2026-11-26", *place, *NOW)
    later = (*place, "--now", "2026-11-28T07:00")
    shown = {name: " ".join(ran(monkeypatch, name, *later).out.split()) for name in ("ready", "weak", "plan")}
    assert "today (the exam day has passed)" in shown["ready"]
    assert "the exam day has passed" in shown["weak"]
    assert "the exam has passed" in shown["plan"]
    assert "`quizzer study` is that session" in shown["plan"]
    assert not any("no exam day" in page for page in shown.values())
    events = tmp_path / "x.ics"
    ran(monkeypatch, "plan", "--ics", str(events), *later)
    assert events.read_text().count("BEGIN:VEVENT") == events.read_text().count("RRULE:FREQ=WEEKLY") == 1


ASKED = (
    ("weak", *PRIYA),
    ("weak", *GROUP),
    ("ready", *PRIYA),
    ("ready", *PRIYA, "--exam", "today"),
    ("ready", *GROUP),
    ("plan", *PRIYA),
)


DRAWN = (("weak", *GROUP), ("ready", *PRIYA, "--exam", "today"), ("plan", *PRIYA))


BEGINS = {"svg": b"<svg", "pdf": b"%PDF", "txt": b""}
# Every page on paper; a drawing and a text are made of the same blocks, whatever page it is.
WRITTEN = [("pdf", args) for args in ASKED] + [(ending, args) for ending in ("svg", "txt") for args in DRAWN]


@pytest.mark.parametrize(
    ("ending", "args"), WRITTEN, ids=lambda each: each if isinstance(each, str) else " ".join(each)
)
def test_files_are_written(ending, args, centre, monkeypatch, tmp_path):
    path = tmp_path / f"file.{ending}"
    found = ran(monkeypatch, *args, "--out", str(path), *centre)
    assert found.code == 0, found.err
    assert "Written:" in found.out
    content = path.read_bytes()
    assert content.startswith(BEGINS[ending])
    assert list(tmp_path.iterdir()) == [path]
    text = words(content) if ending == "pdf" else " ".join(content.decode().split())
    assert "invented" in text
    assert "your assessor decides" in text
    if ending == "pdf":
        _its_plots_are_tagged_and_told_in_words(content, args in DRAWN)


def _its_plots_are_tagged_and_told_in_words(content, drawn):
    """Intervals have their words beside them, and need none for a picture: those pages have no figure."""
    assert b"<pdfuaid:part>1</pdfuaid:part>" in catalogue(content)["/Metadata"].get_object().get_data()
    pictures = [tag for tag in tags(content) if tag["/S"] == "/Figure"]
    assert bool(pictures) == drawn
    assert all(re.search(r": \S+.*\.$", picture["/Alt"]) for picture in pictures)
    assert "MOCK" not in words(content)


def test_a_newcomer_gets_a_page_without_plots(centre, monkeypatch, tmp_path):
    for command in ("ready", "weak"):
        found = ran(monkeypatch, command, "--out", str(tmp_path / "n.pdf"), *centre)
        assert found.code == 0, found.err
        assert "ot enough answers to say" in words((tmp_path / "n.pdf").read_bytes())


def test_a_calendar_is_written(centre, monkeypatch, tmp_path):
    found = ran(monkeypatch, "plan", *PRIYA, "--ics", str(tmp_path / "p.ics"), *centre)
    assert found.code == 0, found.err
    assert (tmp_path / "p.ics").read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_who_looks_at_an_empty_page_of_his_own_is_told_of_the_others(centre, monkeypatch):
    for command in ("weak", "ready"):
        assert "This store holds 16 other trainees" in " ".join(ran(monkeypatch, command, *centre).out.split())
        assert "other trainees" not in ran(monkeypatch, command, *PRIYA, *centre).out


def test_a_long_name_stands_above_its_row(centre, monkeypatch):
    name = "Bartholomew Maximilian the Younger (invented)"
    ran(monkeypatch, "trainee", "add", name, *centre[:2])
    ran(monkeypatch, "group", "add", "long", name, *centre[:2])
    lines = ran(monkeypatch, "weak", "--group", "long", *centre).out.split("\n")
    assert lines[lines.index(name) + 1].split() == ["?"] * 13


def test_a_topic_alone_is_alone_on_paper(centre, monkeypatch, tmp_path):
    ran(monkeypatch, "weak", *PRIYA, "--topic", "design", "--out", str(tmp_path / "d.svg"), *centre)
    text = (tmp_path / "d.svg").read_text(encoding="utf-8")
    assert "design" in text
    assert "protection" not in text


@pytest.mark.parametrize(
    ("args", "code", "words"),
    [
        (("ready", *PRIYA, *GROUP), 2, "exclude each other"),
        (("ready", "--trainee", "Pria (invented)"), 1, "did you mean 'Priya (invented)'"),
        (("ready", "--group", "nobody"), 1, "no group"),
        (("ready", "--blueprint", "wiring"), 1, "no blueprint"),
        (("ready", *PRIYA, "--exam", "2026-11-20"), 2, "has passed"),
        (("ready", *PRIYA, "--exam", "in 400 years"), 2, "is not from 1970 to 2200"),
        (("ready", *PRIYA, "--exam", "in 9999 years"), 2, "no day"),
        (("ready", *PRIYA, "--exam", "whenever"), 2, "no day"),
        (("ready", *PRIYA, "--out", "x.png"), 2, "none of .svg, .pdf and .txt"),
        (("weak", *GROUP, "--out", "x"), 2, "none of .svg, .pdf and .txt"),
        (("plan", *PRIYA, "--out", "x.docx"), 2, "none of .svg, .pdf and .txt"),
        (("ready", *PRIYA, "--out", "/nowhere/x.svg"), 1, "cannot be written"),
        (("ready", "--out", "x.svg"), 2, "nothing to draw: too few answers"),
        (("plan", *PRIYA, "--ics", "/nowhere/x.ics"), 1, "cannot be written"),
        (("weak", *PRIYA, "--topic", "desing"), 1, "did you mean 'design'"),
        (("plan", *PRIYA, "--minutes", "nan"), 2, "no length"),
        (("plan", *PRIYA, "--days", "mon,someday"), 2, "no days of the week"),
    ],
)
def test_a_refusal_is_one_sentence(args, code, words, centre, monkeypatch):
    found = ran(monkeypatch, *args, *centre)
    assert found.code == code
    assert words in found.err
    assert len(found.err.strip().split("\n")) == 1
