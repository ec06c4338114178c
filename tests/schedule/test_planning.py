from datetime import date, timedelta

import pytest

from quizzer.schedule import NO_AIMS, NO_HISTORY, Fresh, Memory, Standing
from quizzer.schedule.pacing import Clock
from quizzer.schedule.planning import Start, long_road, sessions, study_days

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


def by_the_plain_rule(*_):
    return None


def planned(met, fresh, days, minutes, slow=1.0):
    start = Start(met, fresh, NO_AIMS, NO_HISTORY)
    return list(sessions(start, days, EXAM, Clock(60 * minutes, slow), by_the_plain_rule))


def test_every_day_is_filled_and_what_waits_is_said():
    met = [Standing(f"m/{n}/x", "m", due(-3)) for n in range(40)]
    fresh = [Fresh(f"f/{n}/x", "f") for n in range(200)]
    plans = [day for day, _ in planned(met, fresh, study_days(MONDAY, EXAM, range(7)), 10)]
    assert all(9 <= plan.minutes <= 10.7 for plan in plans)
    assert (plans[0].reviews, plans[0].new, plans[0].over) == (15, 0, 25)
    assert sum(plan.new for plan in plans) > 80


def test_somebody_twice_as_slow_does_half():
    fresh = [Fresh(f"f/{n}/x", "f") for n in range(200)]
    usual, slow = (planned([], fresh, [MONDAY], 20, each)[0][0] for each in (1.0, 2.0))
    assert (usual.new, slow.new) == (16, 8)
    assert slow.minutes == pytest.approx(20)


def test_each_day_gains_are_asked_anew_with_what_was_planned():
    asked = []

    def gains(day, met, fresh, done):
        asked.append((day, len(met), len(fresh), len(done)))
        return {one.entry: 1.0 for one in fresh}

    fresh = [Fresh(f"f/{n}/x", "f") for n in range(20)]
    days = [MONDAY, MONDAY + timedelta(days=1)]
    list(sessions(Start([], fresh, NO_AIMS, NO_HISTORY), days, EXAM, Clock(600), gains))
    assert asked == [(days[0], 0, 20, 0), (days[1], 8, 12, 8)]


def test_nothing_to_do_is_a_plan_too():
    assert [day.minutes for day, _ in planned([], [], [MONDAY], 10)] == [0]
    assert planned([Standing("m/x", "m", due(0))], [], [], 10) == []


@pytest.mark.parametrize(("many", "parked"), [(10, 0), (100, 55)])
def test_a_backlog_of_more_than_three_sessions_is_parked(many, parked):
    road = long_road(
        [Standing(f"m/{n}/x", "m", due(0)) for n in range(many)], MONDAY, MONDAY + timedelta(weeks=100), 10
    )
    assert (road.sessions, road.kept + road.parked) == (101, many)
    assert road.parked == parked
    assert road.backlog == many
