"""What the options of a session mean: its limits, and the days of a week."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quizzer.errors import UsageError
from quizzer.schedule.pacing import MINUTES

if TYPE_CHECKING:
    from quizzer.workflows.study.session import Limits

_WEEK = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def limits_of(minutes: float | None, count: int | None, usual: float | None = None) -> Limits:
    """The end of a session: the usual minutes of this person, or ten, when nothing is said. Raises UsageError."""
    if minutes is not None and not 0 < minutes <= 24 * 60:
        raise UsageError(f"--minutes {minutes:g} is no length for a session", mend="give a number from 1 to 1440")
    if count is not None and not 0 < count <= 10_000:
        raise UsageError(f"--count {count} is no number of questions", mend="give a number from 1 to 10000")
    from quizzer.workflows.study.session import Limits  # here: a forecast reads options too, and opens no session

    return Limits(usual or MINUTES if minutes is None and count is None else minutes, count)


def new_of(new: int | None) -> int | None:
    """How many new questions at most; None for as many as there is time for. Raises UsageError."""
    if new is not None and not 0 <= new <= 10_000:
        raise UsageError(f"--new {new} is no number of questions", mend="give 0 or more")
    return new


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
