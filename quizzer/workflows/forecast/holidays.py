"""Days on which nobody studies, by rule: the bank holidays of England and Wales.

Source: Banking and Financial Dealings Act 1971, schedule 1, and the days by proclamation (New Year's Day, early May);
a holiday on a weekend moves to the next working day. Single days proclaimed for one year only are not known here.
"""

from __future__ import annotations

from datetime import date, timedelta


def holidays(first: date, last: date) -> dict[date, str]:
    """The holidays from `first` to `last` with their names."""
    found = {day: name for year in range(first.year, last.year + 1) for day, name in _of_year(year).items()}
    return {day: name for day, name in sorted(found.items()) if first <= day <= last}


def _of_year(year: int) -> dict[date, str]:
    from dateutil.easter import easter
    from dateutil.relativedelta import MO, relativedelta

    sunday = easter(year)
    days = {
        _working(date(year, 1, 1)): "New Year's Day",
        sunday - timedelta(days=2): "Good Friday",
        sunday + timedelta(days=1): "Easter Monday",
        date(year, 5, 1) + relativedelta(weekday=MO(1)): "early May holiday",
        date(year, 5, 31) + relativedelta(weekday=MO(-1)): "spring holiday",
        date(year, 8, 31) + relativedelta(weekday=MO(-1)): "summer holiday",
    }
    christmas, boxing = date(year, 12, 25), date(year, 12, 26)
    if christmas.weekday() >= 4:  # one of the two falls on a weekend
        boxing = date(year, 12, 28) if christmas.weekday() != 6 else boxing
        christmas = date(year, 12, 27) if christmas.weekday() > 4 else christmas
    return days | {christmas: "Christmas Day", boxing: "Boxing Day"}


def _working(day: date) -> date:
    return day + timedelta(days=max(0, 7 - day.weekday())) if day.weekday() >= 5 else day
