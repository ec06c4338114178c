"""After the exam, or with none, `study` keeps the topics of the work alive in ten minutes a week."""

import json

import pytest

from quizzer.workflows.study.keeping import ROAD_TOPICS
from tests.cli.running import ran

BEFORE, AFTER = "2026-11-25T07:00", "2026-12-20T07:00"
ONE_ANSWER = "A1\n\n1\n1\n\n"  # to a question with options, or else a number
WEEKLY = "10 minutes a week keep what you know; `quizzer study --minutes 20` for more"


@pytest.fixture
def study(monkeypatch, tmp_path):
    """Study at an instant, with this typed, over the shipped bank; the screen."""

    def at(now: str, *args: str, typed: str) -> str:
        done = ran(
            monkeypatch, "study", "--now", now, "--seed", "7", "--store", str(tmp_path / "s.db"), *args, typed=typed
        )
        assert (done.code, done.err) == (0, "")
        return " ".join(done.out.split())

    return at


@pytest.fixture
def plan(monkeypatch, tmp_path):
    """The plan at an instant."""

    def at(now: str) -> str:
        return " ".join(ran(monkeypatch, "plan", "--now", now, "--store", str(tmp_path / "s.db")).out.split())

    return at


def asked(monkeypatch, tmp_path):
    """The entries asked so far."""
    told = ran(monkeypatch, "trainee", "export", "local trainee", "--store", str(tmp_path / "s.db")).out
    return [each["entry"] for each in json.loads(told)["review"]]


def test_after_the_exam_the_weekly_session_is_what_study_offers(monkeypatch, tmp_path, study):
    assert "once a week" not in study(BEFORE, "--exam", "2026-12-14", typed="q\n")
    shown = study(AFTER, typed="A1\n\nB1\n\n" * 3)
    assert "10 minutes, once a week, of what the work itself needs" in shown
    assert f"The exam day has passed: {WEEKLY}" in shown
    assert "In 7 days (Sun 27 Dec)" in shown
    assert asked(monkeypatch, tmp_path)
    assert all(entry.startswith(tuple(f"{topic}/" for topic in ROAD_TOPICS)) for entry in asked(monkeypatch, tmp_path))


def test_with_an_exam_ahead_or_a_wish_study_is_as_ever(study):
    study(BEFORE, "--exam", "2026-12-14", typed="q\n")
    assert "once a week" not in study(AFTER, "--topic", "principles", typed="q\n")
    assert "once a week" not in study(AFTER, "--minutes", "20", typed="q\n")
    assert "once a week" not in study(AFTER, "--exam", "2027-03-14", typed="q\n")


def test_with_no_exam_it_is_for_whoever_comes_back_after_days(study, plan):
    assert WEEKLY not in study(BEFORE, "--count", "1", typed=ONE_ANSWER)
    assert WEEKLY not in study("2026-11-26T07:00", typed="q\n")
    assert "10 minutes a day: what comes back, and what is new" in plan("2026-11-26T07:00")
    assert f"No exam is set: {WEEKLY}" in study("2026-12-01T07:00", typed="q\n")
    assert "a day" not in plan("2026-12-01T07:00")


def test_whoever_chose_minutes_a_day_learns_daily_without_an_exam(monkeypatch, tmp_path, study, plan):
    """As at the first start, with no exam yet; taking an exam away ends it, unless minutes are named with that."""

    def set_to(*wishes):
        store = ("--store", str(tmp_path / "s.db"), "--now", BEFORE)
        return " ".join(ran(monkeypatch, "trainee", "set", *wishes, *store).out.split())

    set_to("--minutes", "15")
    study(BEFORE, "--count", "1", typed=ONE_ANSWER)
    assert WEEKLY not in study(AFTER, typed="q\n")
    assert "15 minutes a day" in plan(AFTER)
    assert "is 10 minutes a week" not in set_to("--exam", "none", "--minutes", "15")
    assert "`quizzer study` is 10 minutes a week" in set_to("--exam", "none")
    assert WEEKLY in study(AFTER, typed="q\n")


def test_who_says_that_there_is_no_exam_has_the_weekly_session_at_once(monkeypatch, tmp_path, study, plan):
    def set_to(*wishes):
        store = ("--store", str(tmp_path / "s.db"), "--now", BEFORE)
        return " ".join(ran(monkeypatch, "trainee", "set", *wishes, *store).out.split())

    assert "a week" not in set_to("--exam", "none")  # nothing is known yet that could be kept
    assert WEEKLY not in study(BEFORE, "--count", "1", typed=ONE_ANSWER)
    assert f"No exam is set: {WEEKLY}" in study(BEFORE, typed="q\n")  # on the same day
    assert "a day" not in plan(BEFORE)
    set_to("--exam", "2026-12-14")
    assert WEEKLY not in study(BEFORE, typed="q\n")
    assert "`quizzer study` is 10 minutes a week" in set_to("--exam", "none")
    assert WEEKLY in study("2026-11-26T07:00", typed="q\n")
    set_to("--minutes", "15")
    assert WEEKLY not in study("2026-11-26T07:00", typed="q\n")
