"""The rule at its edges, and the laws that hold whatever the answers."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizzer.schedule import Memory, comes_back, is_due, next_memory, worth_reviewing

TODAY = date(2026, 3, 2)
QUALITIES = st.integers(0, 5)
DAYS = st.dates(date(2000, 1, 1), date(2200, 1, 1))
GAPS = st.integers(-400, 4000)


@st.composite
def memories(draw: st.DrawFn) -> Memory:
    """A memory that the rule itself can reach, with answers early, late and under a clock set back."""
    today = draw(DAYS)
    memory = next_memory(None, draw(QUALITIES), today, safety_critical=draw(st.booleans()))
    for quality, gap in draw(st.lists(st.tuples(QUALITIES, GAPS), max_size=12)):
        today += timedelta(days=gap)
        memory = next_memory(memory, quality, today, safety_critical=draw(st.booleans()))
    return memory


def on(days: int) -> date:
    """The day so many days after TODAY."""
    return TODAY + timedelta(days=days)


@given(memories(), QUALITIES, DAYS, st.booleans())
def test_a_due_day_is_never_in_the_past(memory: Memory, quality: int, today: date, critical: bool) -> None:
    after = next_memory(memory, quality, today, safety_critical=critical)
    assert after.due > today
    assert after.last == today


@given(memories(), QUALITIES, DAYS, st.booleans())
def test_ease_is_never_under_130(memory: Memory, quality: int, today: date, critical: bool) -> None:
    assert next_memory(memory, quality, today, safety_critical=critical).ease >= 130


@given(memories(), DAYS, st.booleans())
def test_a_better_answer_never_comes_back_on_an_earlier_day(memory: Memory, today: date, critical: bool) -> None:
    dues = [next_memory(memory, q, today, safety_critical=critical).due for q in range(6)]
    assert dues == sorted(dues)


@given(memories(), st.integers(0, 2), DAYS, st.booleans())
def test_a_lapse_comes_back_tomorrow_with_the_ease_it_had(
    memory: Memory, quality: int, today: date, critical: bool
) -> None:
    after = next_memory(memory, quality, today, safety_critical=critical)
    assert (after.due, after.ease, after.repetition) == (today + timedelta(days=1), memory.ease, 1)
    assert after.owed == (2 if critical else 0)


@given(memories(), QUALITIES, DAYS, GAPS)
def test_early_or_late_counts_from_the_stored_interval(memory: Memory, quality: int, today: date, gap: int) -> None:
    then = next_memory(memory, quality, today)
    later = next_memory(memory, quality, today + timedelta(days=gap))
    assert (later.interval, later.ease, later.repetition) == (then.interval, then.ease, then.repetition)
    assert later.due - then.due == timedelta(days=gap)


def test_an_overdue_answer_uses_the_interval_and_not_the_days_that_passed() -> None:
    memory = Memory(250, 3, 15, TODAY, on(15))
    assert next_memory(memory, 4, on(200)).interval == 38


def test_a_clock_set_back_counts_on_the_day_it_shows() -> None:
    memory = Memory(250, 3, 15, TODAY, on(15))
    after = next_memory(memory, 4, on(-30))
    assert (after.last, after.due) == (on(-30), on(8))


def test_what_a_wrong_clock_sent_years_ahead_is_due_at_once_and_put_right() -> None:
    astray = next_memory(None, 4, date(2099, 1, 1))
    assert is_due(astray, TODAY)
    assert worth_reviewing(astray, on(30), TODAY)
    assert next_memory(astray, 4, TODAY).due == on(6)


def test_a_traveller_who_answered_tomorrow_is_not_asked_again_today() -> None:
    memory = next_memory(None, 4, on(1))
    assert not is_due(memory, TODAY)
    assert is_due(memory, on(-1))


@pytest.mark.parametrize("quality", [-1, 6, 100])
def test_a_quality_off_the_scale_is_refused(quality: int) -> None:
    with pytest.raises(ValueError, match=f"quality {quality} is not in 0 to 5"):
        next_memory(None, quality, TODAY)


def test_intervals_stop_at_a_hundred_years_and_dates_at_the_last() -> None:
    memory = next_memory(None, 5, TODAY)
    for _ in range(60):
        memory = next_memory(memory, 5, TODAY)
    assert memory.interval == 36_500
    assert next_memory(memory, 5, date(9999, 12, 1)).due == date.max


def walked(qualities: list[int], *, critical: bool) -> list[int]:
    """Intervals after each answer, each answered when due."""
    memory, intervals = None, []
    today = TODAY
    for quality in qualities:
        memory = next_memory(memory, quality, today, safety_critical=critical)
        intervals.append(memory.interval)
        today = memory.due
    return intervals


@pytest.mark.parametrize(
    ("qualities", "intervals"),
    [
        ([5, 5, 5], [1, 6, 17]),  # never missed: the plain rule
        ([0, 5, 5, 5], [1, 1, 6, 17]),  # right twice in a row, then on
        ([0, 5, 0, 5, 5], [1, 1, 1, 1, 6]),  # the run starts again
        ([4, 4, 4, 1, 3, 3, 4], [1, 6, 15, 1, 1, 6, 15]),
    ],
)
def test_a_missed_safety_critical_entry_comes_back_daily_until_right_twice(
    qualities: list[int], intervals: list[int]
) -> None:
    assert walked(qualities, critical=True) == intervals


def test_the_extra_day_leaves_the_ease_alone() -> None:
    missed = next_memory(None, 0, TODAY, safety_critical=True)
    first = next_memory(missed, 5, on(1), safety_critical=True)
    second = next_memory(first, 5, on(2), safety_critical=True)
    assert [(m.ease, m.owed) for m in (missed, first, second)] == [(250, 2), (250, 1), (260, 0)]


def test_an_entry_taken_out_of_the_set_owes_nothing() -> None:
    missed = next_memory(None, 0, TODAY, safety_critical=True)
    assert next_memory(missed, 4, on(1)) == Memory(250, 2, 6, on(1), on(7))


@pytest.mark.parametrize(
    ("last", "interval", "exam", "today", "worth"),
    [
        (0, 20, 34, 20, False),  # 34 < 35
        (0, 20, 35, 20, True),  # 35 is not under 35
        (0, 7, 12, 7, False),  # 12 < 12.25
        (0, 7, 13, 7, True),
        (0, 20, 20, 20, True),  # the exam is today: it no longer lies ahead
        (0, 20, 10, 20, True),  # it is over
    ],
)
def test_a_review_is_skipped_when_the_exam_is_nearer_than_seven_quarters_of_its_interval(
    last: int, interval: int, exam: int, today: int, worth: bool
) -> None:
    memory = Memory(250, 3, interval, on(last), on(last + interval))
    assert worth_reviewing(memory, on(exam), on(today)) is worth


def test_without_an_exam_every_due_review_is_worth_it() -> None:
    assert worth_reviewing(Memory(250, 3, 20, TODAY, on(20)), None, on(20)) is True


@given(memories(), DAYS, DAYS)
def test_the_exam_rule_is_the_fraction_it_stands_for(memory: Memory, exam: date, today: date) -> None:
    ahead = today < exam and memory.last <= today + timedelta(days=1)
    short = (exam - memory.last).days < 1.75 * memory.interval  # both sides are exact in binary
    assert worth_reviewing(memory, exam, today) is not (ahead and short)


@given(memories(), DAYS, st.integers(0, 400))
def test_a_later_exam_never_makes_a_review_less_worth_it(memory: Memory, exam: date, more: int) -> None:
    today = max(exam - timedelta(days=1), memory.last)
    if worth_reviewing(memory, exam, today):
        assert worth_reviewing(memory, exam + timedelta(days=more), today)


@given(memories(), DAYS)
def test_a_missed_entry_is_never_skipped(memory: Memory, today: date) -> None:
    missed = next_memory(memory, 0, today, safety_critical=True)
    assert all(worth_reviewing(missed, missed.due + timedelta(days=n), missed.due) for n in range(30))


@given(memories(), DAYS)
def test_nothing_comes_back_between_the_exam_and_its_end(memory: Memory, exam: date) -> None:
    back = comes_back(memory, exam)
    if exam > memory.last:
        assert back is None or back <= exam
    else:
        assert back == memory.due


def test_coming_back_on_the_day_of_the_exam_is_not_past_it() -> None:
    memory = Memory(250, 2, 6, TODAY, on(6))
    assert comes_back(memory, on(6)) == on(6)
    assert comes_back(memory, on(5)) is None
    assert comes_back(memory, None) == on(6)


def test_due_from_the_day_on() -> None:
    memory = Memory(250, 2, 6, TODAY, on(6))
    assert [is_due(memory, on(day)) for day in (5, 6, 7)] == [False, True, True]
