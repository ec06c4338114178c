"""The line of a session: everything that may be asked today, in order. The one place where an order is made.

The plain rule asks what is due, then what is new, then what is least early. Where gains are known it goes by what a
second of an entry gains. Either says only *when* a new entry comes; `newcomers.py` says *which*.
"""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from math import inf
from typing import Final

from quizzer.schedule.aims import NO_AIMS, Aims, part_of, weighed
from quizzer.schedule.memory import Memory, is_due, worth_reviewing
from quizzer.schedule.newcomers import Fresh, newcomers
from quizzer.values import NamedTuple

DRY: Final = 2  # sessions without a new entry, after which there is one
KNOWN_SECONDS: Final = 40.0  # an answer that is known
PATIENCE: Final = 1.5  # intervals that a due entry may wait before it comes first
OWED_PATIENCE: Final = 3  # the same by gain, of a missed safety-critical entry that still owes right answers


class Standing(NamedTuple):
    """An entry the trainee has met: its id, its topic, and what is remembered of it."""

    entry: str
    topic: str
    memory: Memory


class History(NamedTuple):
    """What was asked before: answers by entry, and days of study since the last one with a new entry."""

    answers: Mapping[str, int]
    dry: int


NO_HISTORY: Final = History({}, 0)


class Occasion(NamedTuple):
    """A session: its day, the exam ahead if any, its seconds and its new entries at most (None: no limit).

    Besides, what is studied for and what was asked before.
    """

    today: date
    exam: date | None = None
    seconds: float | None = None
    new: int | None = None
    aims: Aims = NO_AIMS
    history: History = NO_HISTORY


Place = Standing | Fresh


def line(
    met: Sequence[Standing],
    fresh: Sequence[Fresh],
    occasion: Occasion,
    gains: Mapping[str, float] | None = None,
) -> tuple[Place, ...]:
    """Everything that may be asked, in order; nothing twice, and nothing that was answered today.

    `gains` is what a second of each entry gains, where that is known. A missed safety-critical entry that still owes
    right answers comes first; by gain it may wait for its turn so many of its intervals, and no longer.
    """
    here = [one for one in met if one.memory.last != occasion.today]
    pressing = _owes if gains is None else _waited
    owed = sorted((one for one in here if pressing(one, occasion.today)), key=_by_due)
    first = {one.entry for one in owed}
    rest = [one for one in here if one.entry not in first]
    parts = Counter(part_of(one.entry) for one in met)
    ahead = inf if occasion.seconds is None else occasion.seconds / KNOWN_SECONDS
    coming = newcomers(fresh, parts, occasion.aims, occasion.history.answers, gains, ahead, len(owed))
    if gains is None:
        ranked = _plain(rest, len(fresh), occasion)
    else:
        ranked = _gainful(rest, coming.entries, occasion.aims, gains)
    if gains is None and coming.first + coming.early == 0 and occasion.history.dry >= DRY:
        places = [*owed[:1], *_opened(owed[1:], 0, 1), *_opened(ranked, 0, 0, taken=1)]
    else:
        places = [*owed, *_opened(ranked, coming.first, coming.early)]
    return tuple(_filled(places, coming.entries if occasion.new is None else coming.entries[: occasion.new]))


def _owes(one: Standing, today: date) -> bool:
    return bool(one.memory.owed) and is_due(one.memory, today)


def _waited(one: Standing, today: date) -> bool:
    return _owes(one, today) and (today - one.memory.due).days >= OWED_PATIENCE * one.memory.interval


def _by_due(one: Standing) -> tuple[date, str]:
    return one.memory.due, one.entry


def _plain(rest: Sequence[Standing], new: int, occasion: Occasion) -> list[Standing | None]:
    """What is due and worth a review before the exam, then what is new (None), then what is least early.

    Due-day order is kept on purpose: asking the relatively most overdue first loses most of a backlog.
    """
    ordered = sorted(rest, key=_by_due)
    due = [one for one in ordered if _is_wanted(one.memory, occasion)]
    wanted = {one.entry for one in due}
    if occasion.seconds is not None and len(due) * KNOWN_SECONDS > occasion.seconds:
        due.sort(key=lambda one: _turn(one, occasion))
    return [*due, *[None] * new, *(one for one in ordered if one.entry not in wanted)]


def _is_wanted(memory: Memory, occasion: Occasion) -> bool:
    return is_due(memory, occasion.today) and worth_reviewing(memory, occasion.exam, occasion.today)


def _turn(one: Standing, at: Occasion) -> tuple[bool, float]:
    """What sorts more than fits: first whatever has waited too many of its intervals, else by what it counts.

    Those that have waited stay in the order of their due days: by the share of the interval that is over, what is
    always forgotten would come again and again before what is known for months.
    """
    waited = (at.today - one.memory.due).days >= PATIENCE * one.memory.interval
    return not waited, 0.0 if waited else -at.aims.weight(one.entry)


def _gainful(
    rest: Sequence[Standing], coming: Sequence[Fresh], aims: Aims, gains: Mapping[str, float]
) -> list[Standing | None]:
    """By what a second gains, most first; a new entry is None. Those that gain nothing yet come last, and come."""
    ranked: list[tuple[float, Standing | None]] = [
        (weighed(gains.get(one.entry, 0.0), one.entry, aims), one) for one in sorted(rest, key=_by_due)
    ]
    ranked += [(weighed(gains.get(one.entry, 0.0), one.entry, aims), None) for one in coming]
    ranked.sort(key=lambda pair: -pair[0])
    return [place for _, place in ranked]


def _opened(ranked: Sequence[Standing | None], first: int, early: int, taken: int = 0) -> Iterator[Standing | None]:
    """The ranking with so many new entries before all else, and so many more at every second place after them.

    They take the places of its own first ones, and of so many more that are `taken` already.
    """
    taken += first + early
    rest = deque(ranked)
    yield from [None] * first
    for at in range(2 * early):
        if at % 2 == 0:
            yield None
        elif rest:
            yield rest.popleft()
    for place in rest:
        taken -= place is None
        if place is not None or taken < 0:
            yield place


def _filled(places: Iterable[Standing | None], coming: Sequence[Fresh]) -> Iterator[Place]:
    """The places with the new entries in their order; without those for which there is none."""
    left = iter(coming)
    for place in places:
        found = next(left, None) if place is None else place
        if found is not None:
            yield found
