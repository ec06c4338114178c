from datetime import date, timedelta

import pytest

from quizzer.schedule import Memory
from quizzer.schedule.planning import (
    REVIEW_MINUTES,
    Wanted,
    affordable,
    day_plans,
    long_road,
    minutes_left,
    study_days,
)

MONDAY = date(2026, 11, 30)
EXAM = MONDAY + timedelta(days=42)


def due(days, interval=6):
    return Memory(250, 2, interval, MONDAY - timedelta(days=1), MONDAY + timedelta(days=days))


def test_study_days_keep_to_weekdays_and_skip_closed_ones():
    days = study_days(MONDAY, MONDAY + timedelta(days=14), {0, 2}, {MONDAY + timedelta(days=2)})
    assert [(day - MONDAY).days for day in days] == [0, 7, 9]


def test_the_exam_day_is_no_study_day_and_a_passed_one_leaves_none():
    assert study_days(MONDAY, MONDAY + timedelta(days=1), range(7)) == [MONDAY]
    assert study_days(MONDAY, MONDAY, range(7)) == []
    assert study_days(MONDAY, MONDAY - timedelta(days=9), range(7)) == []


def test_an_entry_gets_cheaper_with_each_answer():
    assert [minutes_left(None), minutes_left(due(0))] == [5.5, 3.5]
    assert minutes_left(Memory(250, 9, 90, MONDAY, EXAM)) == 1.0


def test_what_is_worth_most_for_its_time_fits_first_and_the_rest_is_named():
    entries = [Wanted(f"t/s/{n}", "t", 1.0, n / 10, 5.5, met=False) for n in range(10)]
    taken, left = affordable(entries, 17)
    assert [one.entry for one in taken] == ["t/s/9", "t/s/8", "t/s/7"]
    assert len(left) == 7


def test_no_day_is_fuller_than_its_minutes_and_what_waits_is_said():
    plans = day_plans([due(-3) for _ in range(40)], 50, study_days(MONDAY, EXAM, range(7)), EXAM, 10)
    assert all(plan.minutes <= 10 for plan in plans)
    assert (plans[0].reviews, plans[0].new, plans[0].over) == (int(10 / REVIEW_MINUTES), 0, 25)
    assert sum(plan.new for plan in plans) == 50


def test_nothing_to_do_is_a_plan_too():
    assert all(plan.minutes == 0 for plan in day_plans([], 0, [MONDAY], EXAM, 10))
    assert day_plans([due(0)], 3, [], EXAM, 10) == ()


@pytest.mark.parametrize(("many", "parked"), [(10, 0), (100, 55)])
def test_a_backlog_of_more_than_three_sessions_is_parked(many, parked):
    road = long_road([due(0) for _ in range(many)], MONDAY, MONDAY + timedelta(weeks=100), 10)
    assert (road.sessions, road.kept + road.parked) == (101, many)
    assert road.parked == parked
    assert road.backlog == many
