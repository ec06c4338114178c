"""What somebody's reviews show over the weeks: what is known, the time it took, mistakes mended and still made.

An entry is *known* once the right answers since its last wrong one lie a week or more apart: one right answer shows
that the explanation was just read, a second a week later that it stayed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from quizzer.bank.mistakes import mistakes, named
from quizzer.schedule.review import Review

KNOWN_FOR: Final = timedelta(days=7)
RIGHT_TO_MEND: Final = 2  # right answers in a row after a mistake, to the entry it was made in
LONGEST_SECONDS: Final = 600  # of one answer that count as time spent: longer means away
WEEK: Final = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Week:
    """A week from its Monday: answers given (drills left out), right ones, seconds, and entries known at its end."""

    monday: date
    answers: int
    right: int
    seconds: int
    known: int


@dataclass(frozen=True, slots=True)
class Mistakes:
    """Named mistakes by slip id with in how many entries: mended (right twice since), and still made."""

    mended: tuple[tuple[str, int], ...]
    still_made: tuple[tuple[str, int], ...]


class _Streak:
    """The right answers to one entry since its last wrong one."""

    def __init__(self) -> None:
        self.first: date | None = None
        self.last: date | None = None

    def answer(self, right: bool, day: date) -> None:
        self.first = (self.first or day) if right else None
        self.last = day if right else None

    @property
    def known(self) -> bool:
        return self.first is not None and self.last is not None and self.last - self.first >= KNOWN_FOR


class Known:
    """Which entries are known, as reviews come in, oldest first; drills do not count."""

    def __init__(self) -> None:
        self._streaks: dict[str, _Streak] = {}

    def answer(self, review: Review) -> None:
        """Take one review in."""
        if not review.drill:
            self._streaks.setdefault(review.entry, _Streak()).answer(review.right, review.day)

    def entries(self) -> frozenset[str]:
        """The entries known after the reviews so far."""
        return frozenset(entry for entry, streak in self._streaks.items() if streak.known)


def weeks_of(reviews: Iterable[Review], today: date) -> tuple[Week, ...]:
    """Every week from the first review's to today's, empty ones too; reviews dated after today are left out."""
    kept = sorted((one for one in reviews if one.day <= today), key=lambda one: one.day)
    known = Known()
    by_week: dict[date, list[Review]] = {}
    for one in kept:
        by_week.setdefault(_monday(one.day), []).append(one)
    weeks = []
    for monday in _mondays(kept[0].day, today) if kept else ():
        inside = by_week.get(monday, [])
        for one in inside:
            known.answer(one)
        weeks.append(_week(monday, inside, len(known.entries())))
    return tuple(weeks)


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _mondays(first: date, last: date) -> Iterator[date]:
    monday = _monday(first)
    while monday <= last:
        yield monday
        monday += WEEK


def _week(monday: date, inside: Sequence[Review], known: int) -> Week:
    answers = [one for one in inside if not one.drill]
    seconds = sum(min(one.seconds, LONGEST_SECONDS) for one in inside)
    return Week(monday, len(answers), sum(one.right for one in answers), seconds, known)


def mistakes_of(reviews: Iterable[Review]) -> Mistakes:
    """Which named mistakes were mended, and which were not yet, from reviews oldest first; drills do not count."""
    right_since: dict[tuple[str, str], int] = {}
    for one in reviews:
        if one.drill:
            continue
        for slip, entry in [each for each in right_since if each[1] == one.entry]:
            right_since[slip, entry] = right_since[slip, entry] + 1 if one.right else 0
        if not one.right:
            right_since |= {(named(slip, one.entry), one.entry): 0 for slip in mistakes(one.slip)}
    mended = [slip for (slip, _), right in right_since.items() if right >= RIGHT_TO_MEND]
    still = [slip for (slip, _), right in right_since.items() if right < RIGHT_TO_MEND]
    return Mistakes(_counted(mended), _counted(still))


def _counted(slips: Sequence[str]) -> tuple[tuple[str, int], ...]:
    """Each slip with how often it is there, most often first."""
    counts = [(slip, slips.count(slip)) for slip in dict.fromkeys(slips)]
    return tuple(sorted(counts, key=lambda each: (-each[1], each[0])))
