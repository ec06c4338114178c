from datetime import date

import pytest

from quizzer.cli.option_values import weekdays_of
from quizzer.errors import UsageError
from quizzer.workflows.study.wishes import exam_day

TODAY = date(2026, 11, 25)
LATE = date(2028, 3, 1)


@pytest.mark.parametrize(
    ("text", "today", "day"),
    [
        ("2027-03-14", TODAY, date(2027, 3, 14)),
        ("14 March", TODAY, date(2027, 3, 14)),
        ("14 december", TODAY, date(2026, 12, 14)),
        ("in 6 weeks", TODAY, date(2027, 1, 6)),
        ("in six weeks", TODAY, date(2027, 1, 6)),
        ("In a month", date(2027, 1, 31), date(2027, 2, 28)),
        ("in 10 days", TODAY, date(2026, 12, 5)),
        ("in 2 years", date(2028, 2, 29), date(2030, 2, 28)),
        ("29 February", LATE, date(2032, 2, 29)),
        (" in 1 day ", TODAY, date(2026, 11, 26)),
        ("Tomorrow", TODAY, date(2026, 11, 26)),
        ("today", TODAY, TODAY),
    ],
)
def test_a_day_in_words(text, today, day):
    assert exam_day(text, today) == day


NO_DAYS = ["", "in weeks", "in -3 weeks", "in 9999 years", "in 60 years", "yesterweek", "2026-02-30"]


@pytest.mark.parametrize("text", NO_DAYS)
def test_what_is_no_day_is_refused(text):
    with pytest.raises(UsageError):
        exam_day(text, TODAY)


def test_days_of_the_week():
    assert weekdays_of("mon, Wednesday,SAT,") == {0, 2, 5}
    for text in ("", ",", "mo", "mon;tue", "every day"):
        with pytest.raises(UsageError):
            weekdays_of(text)
