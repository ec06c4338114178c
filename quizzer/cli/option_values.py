"""What the options of a session mean: limits, days, the clock of tests."""

from __future__ import annotations

import re
from calendar import isleap
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

from quizzer.bank.bounds import YEARS
from quizzer.errors import UsageError

if TYPE_CHECKING:
    from quizzer.workflows.study.session import Limits

MINUTES = 10.0
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_AHEAD = re.compile(
    r"in\s+(\d{1,4}|an?|one|two|three|four|five|six|eight|ten|twelve)\s+(day|week|month|year)s?", re.IGNORECASE
)
_COUNTS = {
    "a": 1,
    "an": 1,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "eight": 8,
    "ten": 10,
    "twelve": 12,
}
_DAYS = {"day": 1, "week": 7}
_NEAR = {"today": 0, "tomorrow": 1}
_FAR_YEARS = 30
_WEEK = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def limits_of(minutes: float | None, count: int | None, usual: float | None = None) -> Limits:
    """The end of a session: the usual minutes of this person, or ten, when nothing is said. Raises UsageError."""
    if minutes is not None and not 0 < minutes <= 24 * 60:
        raise UsageError(f"--minutes {minutes:g} is no length for a session", mend="give a number from 1 to 1440")
    if count is not None and not 0 < count <= 10_000:
        raise UsageError(f"--count {count} is no number of questions", mend="give a number from 1 to 10000")
    from quizzer.workflows.study.session import Limits  # here: a forecast reads options too, and opens no session

    return Limits(usual or MINUTES if minutes is None and count is None else minutes, count)


def minutes_a_day(text: str) -> int:
    """Whole minutes of a study day. Raises UsageError."""
    if not (text.isascii() and text.isdigit() and len(text) < 9 and 1 <= int(text) <= 24 * 60):
        raise UsageError(f"{text!r} minutes a day cannot be", mend="give a whole number from 1 to 1440")
    return int(text)


def new_of(new: int | None) -> int | None:
    """How many new questions at most; None for as many as there is time for. Raises UsageError."""
    if new is not None and not 0 <= new <= 10_000:
        raise UsageError(f"--new {new} is no number of questions", mend="give 0 or more")
    return new


def exam_day(text: str, today: date) -> date:
    """The day of a text: 2026-12-14, or in words: "14 December", "in 6 weeks". Raises UsageError."""
    day = day_named(text, today)
    if day < today:
        raise UsageError(f"the exam day {text!r} has passed", mend="give a day from today on, such as 2027-03-14")
    if day.year > today.year + _FAR_YEARS:
        raise UsageError(f"the exam day {text!r} is more than {_FAR_YEARS} years away", mend="check the year")
    return day


def weekdays_of(text: str) -> frozenset[int]:
    """The days of a week by number (Monday is 0): `mon,wed,sat`. Raises UsageError.

    >>> sorted(weekdays_of("Mon, wed,saturday"))
    [0, 2, 5]
    """
    names = [name.strip().lower() for name in text.split(",") if name.strip()]
    found = [at for name in names for at, day in enumerate(_WEEK) if len(name) >= 3 and day.startswith(name)]
    if not names or len(found) < len(names):
        raise UsageError(f"--days {text!r} names no days of the week", mend="write them like mon,wed,sat")
    return frozenset(found)


def day_named(text: str, today: date) -> date:
    """The day of a text, in figures or in words; one without a year is the next such day. Raises UsageError."""
    day = _day_of(text, today)
    if day.year not in YEARS:
        raise UsageError(f"the day {text!r} is not from {YEARS[0]} to {YEARS[-1]}", mend="check the year")
    return day


def _day_of(text: str, today: date) -> date:
    try:
        if iso := _ISO.fullmatch(text.strip()):
            return date(*map(int, iso.groups()))
        if (word := text.strip().lower()) in _NEAR:
            return today + timedelta(days=_NEAR[word])
        if ahead := _AHEAD.fullmatch(text.strip()):
            return _later(today, ahead[1].lower(), ahead[2].lower())
        from dateutil import parser  # only a day by its name needs it

        start = datetime(today.year, today.month, today.day)  # noqa: DTZ001  a calendar day has no zone
        day = parser.parse(text, dayfirst=True, default=start).date()
    except (ValueError, OverflowError):
        raise UsageError(f"there is no day {text!r}", mend="write it like 2027-03-14 or 14 March") from None
    # "14 March" said in November means the next one.
    named_year = re.search(r"\d{4}", text)
    return day if day >= today or named_year else _next_year(day)


def _next_year(day: date) -> date:
    """The same day of the next year that has it: 29 February waits."""
    year = day.year + 1
    while (day.month, day.day) == (2, 29) and not isleap(year):
        year += 1
    return day.replace(year=year)


def _later(today: date, count: str, unit: str) -> date:
    number = _COUNTS.get(count) or int(count)
    if unit in _DAYS:
        return today + timedelta(days=number * _DAYS[unit])
    from dateutil.relativedelta import relativedelta  # months and years have no fixed length

    later: date = today + (relativedelta(months=number) if unit == "month" else relativedelta(years=number))
    return later
