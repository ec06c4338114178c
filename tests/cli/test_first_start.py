"""The first start asks three things, each answered by Enter; asked once, kept, changed and cleared."""

import json
import sys

import pytest

from quizzer.lint.starts import start
from tests.cli.running import ran
from tests.cli.test_terminal import typed_ahead
from tests.sitting import SHARED, small_bank

# Three assessments, a worksheet, and one that wants a topic which the bank has not.
MORE = '\n[[section]]\nid = "more"\ntitle = "More"\nquestions = 1\n'
PLANS = {
    "safety": "",
    "testing-and-faults": "",
    "wiring-regulations": "",
    "workings": MORE + 'topics = ["principles"]\nform = "wrong-line"\n',
    "elsewhere": MORE + 'topics = ["plumbing"]\n',
}
ASKS = ("Which assessment", "When is it?", "How many minutes a day?")


@pytest.fixture
def place(tmp_path):
    """The options that name a small bank with blueprints, and a store of its own."""
    bank = small_bank(tmp_path / "bank")
    (bank / "blueprints").mkdir()
    for name, more in PLANS.items():
        text = start("blueprint").replace("Ten questions on safety", name.replace("-", " ").capitalize())
        (bank / "blueprints" / f"{name}.toml").write_text(text + more, encoding="utf-8")
    return ("--bank", str(bank), "--store", str(tmp_path / "s.db"))


def kept(monkeypatch, place):
    """What the store holds of the local trainee."""
    return json.loads(ran(monkeypatch, "trainee", "export", "local trainee", *place[2:]).out)["trainee"]


def test_three_times_enter_and_never_again(monkeypatch, place):
    shown = typed_ahead("\n\n\nq\n", "study", *place)
    assert [shown.count(each) for each in ASKS] == [1, 1, 1]
    assert "10 minutes: " in shown
    assert "Workings" not in shown  # a worksheet, and no assessment
    assert "Elsewhere" not in shown
    found = kept(monkeypatch, place)
    assert (found["blueprint"], found["exam_day"], found["minutes_a_day"]) == ("wiring-regulations", None, 10)
    again = typed_ahead("q\n", "study", *place)
    assert not any(each in again for each in ASKS)


def test_a_bad_answer_is_asked_again_with_one_sentence(monkeypatch, place):
    typed = "9\nsafty\n1\n31 February\n14 March\nmany\n15\nq\n"
    shown = typed_ahead(typed, "study", "--now", "2026-11-25T07:00", *place)
    assert [shown.count(each) for each in ASKS] == [3, 2, 2]
    for sentence in ("No blueprint '9'", "did you mean 'safety'?", "There is no day '31 February'", "whole number"):
        assert sentence in shown, sentence
    found = kept(monkeypatch, place)
    assert (found["blueprint"], found["exam_day"], found["minutes_a_day"]) == ("safety", "2027-03-14", 15)
    assert "15 minutes: " in shown


def test_whoever_stops_is_asked_the_next_time(monkeypatch, place):
    assert "Which assessment" in typed_ahead("\nq\n", "study", *place)
    assert kept(monkeypatch, place)["blueprint"] is None
    assert "Which assessment" in typed_ahead("q\n", "study", *place)


def test_nobody_at_a_pipe_is_asked(monkeypatch, place):
    out = ran(monkeypatch, "study", *place, typed="q\n").out
    assert not any(each in out for each in ASKS)


def test_what_was_answered_is_changed_and_cleared(monkeypatch, place):
    typed_ahead("\n14 March\n20\nq\n", "study", "--now", "2026-11-25T07:00", *place)
    done = ran(monkeypatch, "trainee", "set", "--exam", "none", "--minutes", "15", *place)
    assert done.out.split() == (
        ["local", "trainee:", "for", "wiring-regulations,", "no", "exam", "day,", "15", "minutes", "a", "day."]
    ), done.err
    cleared = ran(monkeypatch, "trainee", "set", "--for", "none", "--minutes", "none", *place)
    assert "10 minutes a day" in cleared.out
    assert kept(monkeypatch, place)["minutes_a_day"] is None
    wrong = ran(monkeypatch, "trainee", "set", "--minutes", "0", *place)
    assert (wrong.code, wrong.err.count("\n")) == (2, 1)


def test_hints_name_the_command_as_it_was_started(monkeypatch, place):
    monkeypatch.setenv("QUIZZER_STARTED_AS", "scripts/quizzer")
    assert "`scripts/quizzer trainee list` shows" in ran(monkeypatch, "trainee", "export", "Nobody", *place[2:]).err
    assert "`scripts/quizzer study --trainee" in ran(monkeypatch, "trainee", "add", "Ada", *place[2:]).out
    assert "`scripts/quizzer study`" in ran(monkeypatch, "progress", *place).out
    assert ran(monkeypatch, "study", "-h").out.startswith("Usage: scripts/quizzer study ")


def test_the_version_is_that_of_the_package(monkeypatch):
    assert (
        f'version = "{ran(monkeypatch, "--version").out.split()[1]}"' in (SHARED.parent / "pyproject.toml").read_text()
    )


def test_a_shell_that_asks_is_told_the_commands(monkeypatch):
    monkeypatch.setenv("_QUIZZER_COMPLETE", "complete_bash")
    monkeypatch.setenv("COMP_WORDS", "scripts/quizzer stu")
    monkeypatch.setenv("COMP_CWORD", "1")
    with pytest.raises(SystemExit):
        ran(monkeypatch)
    assert sys.stdout.buffer.getvalue() == b"study\n"
