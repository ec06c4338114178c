"""The rule against days as they were published for England and Wales (gov.uk/bank-holidays, from memory)."""

from datetime import date

import pytest

from quizzer.workflows.forecast.holidays import holidays

YEARS = {
    2026: ("01-01", "04-03", "04-06", "05-04", "05-25", "08-31", "12-25", "12-28"),
    2027: ("01-01", "03-26", "03-29", "05-03", "05-31", "08-30", "12-27", "12-28"),
    2028: ("01-03", "04-14", "04-17", "05-01", "05-29", "08-28", "12-25", "12-26"),
    2022: ("01-03", "04-15", "04-18", "05-02", "05-30", "08-29", "12-26", "12-27"),
}


@pytest.mark.parametrize("year", YEARS)
def test_the_days_of_a_year(year):
    # In 2022 the spring holiday was moved, and a day added, by proclamation: single years are not known to the rule.
    days = [f"{day:%m-%d}" for day in holidays(date(year, 1, 1), date(year, 12, 31))]
    assert days == list(YEARS[year])


def test_a_span_over_new_year():
    assert list(holidays(date(2026, 12, 26), date(2027, 1, 1))) == [date(2026, 12, 28), date(2027, 1, 1)]
