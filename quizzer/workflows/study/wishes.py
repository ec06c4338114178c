"""What a trainee studies for, until when and how long a day: as it is typed, and as it is kept."""

from __future__ import annotations

import re
from contextlib import suppress
from datetime import date, datetime, timedelta

from quizzer.bank.blueprints import Blueprint
from quizzer.bank.bounds import YEARS
from quizzer.bankfiles.blueprint_files import blueprint, blueprint_names
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import BankError, UsageError
from quizzer.store import Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.study.person import who
from quizzer.workflows.world import World

NONE = "none"
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


class Wanted(NamedTuple):
    """What is to be set; None leaves it as it is, "none" clears it."""

    paper: str | None
    exam: str | None
    minutes: str | None


def assessments(shelf: Shelf) -> list[Blueprint]:
    """The plans of papers that one studies for: one that asks for topics the bank has not is left out."""
    found = []
    for name in blueprint_names(shelf):
        with suppress(BankError):
            plan = blueprint(shelf, name)
            found += [plan] if plan.is_assessment else []
    return found


def set_wishes(world: World, trainee: Trainee, wanted: Wanted) -> tuple[Trainee, bool]:
    """Keep the paper, the exam day and the minutes a day; the trainee then, and whether they learn daily no more.

    Raises UsageError, or NotFound for a paper, before anything is kept.
    """
    paper = None if wanted.paper in {None, NONE} else wanted.paper
    if paper is not None:
        blueprint(world.shelf, paper)  # refused when it is not there
    minutes = None if wanted.minutes in {None, NONE} else minutes_a_day(str(wanted.minutes))
    exam = None if wanted.exam in {None, NONE} else exam_day(str(wanted.exam), world.now().date())
    if wanted.paper is not None:
        world.store.set_blueprint(trainee.id, paper)
    if wanted.exam is not None:
        world.store.set_exam(trainee.id, exam)
    # Whoever has studied and takes the exam day away has no daily aim any more, unless they say so.
    done = wanted.exam == NONE and bool(world.store.tallies(trainee.id))
    if wanted.minutes is not None or done:
        world.store.set_minutes(trainee.id, minutes)
    now_set = who(world, trainee.name)
    return now_set, done and now_set.minutes is None


def minutes_a_day(text: str) -> int:
    """Whole minutes of a study day. Raises UsageError."""
    if not (text.isascii() and text.isdigit() and len(text) < 9 and 1 <= int(text) <= 24 * 60):
        raise UsageError(f"{text!r} minutes a day cannot be", mend="give a whole number from 1 to 1440")
    return int(text)


def exam_day(text: str, today: date) -> date:
    """The day of a text: 2026-12-14, or in words: "14 December", "in 6 weeks". Raises UsageError."""
    day = day_named(text, today)
    if day < today:
        raise UsageError(f"the exam day {text!r} has passed", mend="give a day from today on, such as 2027-03-14")
    if day.year > today.year + _FAR_YEARS:
        raise UsageError(f"the exam day {text!r} is more than {_FAR_YEARS} years away", mend="check the year")
    return day


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
    from calendar import isleap  # here, not above: few days are named without a year

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
