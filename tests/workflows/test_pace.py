"""A person's own pace: from enough answers, deaf to pauses, drills and wrong clocks, and never wild."""

from datetime import UTC, datetime, timedelta

import pytest

from quizzer.workflows.study.pace import FEWEST, QUICKEST, SLOWEST, pace_of
from tests.stores import review

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


def session(many, seconds=30, reading=10, *, start=NOON - timedelta(days=3), right=True, met=True, entry="e"):
    """Answers one after the other, each so many seconds after its question, which came `reading` after the last."""
    found, at = [], start
    for n in range(many):
        at += timedelta(seconds=reading + seconds)
        name = entry if met else f"{entry}{n}"
        found.append(review(f"{start}-{n}", entry=name, right=right, answered_at=at, seconds=seconds))
    return found


def test_too_few_answers_keep_the_usual_pace():
    pace = pace_of(session(FEWEST), NOON)  # the last answer has no next question
    assert (pace.factor, pace.timed, pace.own) == (1.0, FEWEST - 1, False)
    assert not pace_of([], NOON).own


@pytest.mark.parametrize(("seconds", "reading", "factor"), [(30, 10, 1.0), (60, 20, 2.0), (20, 4, 0.6)])
def test_an_answer_takes_thinking_and_reading(seconds, reading, factor):
    pace = pace_of(session(120, seconds, reading), NOON)
    assert pace.own
    assert pace.seconds == pytest.approx(seconds + reading)
    assert pace.factor == pytest.approx(factor, rel=0.02)


@pytest.mark.parametrize(("right", "met"), [(False, True), (True, False), (False, False)])
def test_new_and_wrong_answers_are_set_against_their_own_usual_time(right, met):
    assert pace_of(session(80, 50, 25, right=right, met=met), NOON).factor == pytest.approx(1.0)


def test_a_telephone_call_and_a_walk_change_nothing():
    calm = session(100)
    odd = session(3, seconds=2_000, start=NOON - timedelta(days=2)) + session(4, reading=170, start=NOON)
    assert pace_of(calm + odd, NOON).factor == pytest.approx(pace_of(calm, NOON).factor, rel=0.02)


def test_a_pause_between_sessions_is_no_reading():
    days = [session(2, start=NOON - timedelta(days=day)) for day in range(100, 0, -1)]
    assert pace_of([one for day in days for one in day], NOON).seconds == pytest.approx(40)


def test_papers_without_times_and_drills_are_no_answers_of_their_own():
    calm, paper = session(100), session(60, seconds=0, reading=0, start=NOON - timedelta(days=1))
    assert pace_of([*calm, *paper], NOON).timed == 99
    drill = review("d", drill=True, answered_at=calm[50].answered_at + timedelta(seconds=5), seconds=4)
    assert pace_of([*calm[:51], drill, *calm[51:]], NOON) == pace_of(calm, NOON)


def test_answers_from_a_clock_years_ahead_are_left_out():
    ahead = session(100, seconds=300, start=NOON + timedelta(days=4000))
    assert pace_of([*session(60), *ahead], NOON) == pace_of(session(60), NOON)


def test_a_clock_set_back_in_between_gives_no_negative_time():
    back = session(60, start=NOON - timedelta(days=1))
    mixed = [*session(60), *back, *session(60, start=NOON - timedelta(days=1, hours=3))]
    assert pace_of(mixed, NOON).seconds == pytest.approx(40)


@pytest.mark.parametrize(("seconds", "factor"), [(590, SLOWEST), (1, QUICKEST)])
def test_a_pace_is_bounded(seconds, factor):
    assert pace_of(session(80, seconds, 0), NOON).factor == factor
