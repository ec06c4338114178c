"""Which new entry comes next: every topic of the paper soon, safety in turn, each part by what it counts."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final

from quizzer.schedule.aims import Aims, part_of, weighed
from quizzer.values import NamedTuple

SAFETY_IN: Final = 3  # new entries, of which one may be safety-critical
UNASKED_IN: Final = 8  # new entries, of which one is of those that the paper does not ask
OWED_MOST: Final = 4  # missed safety-critical entries, from which on no new one is added
SECTION_ANSWERS: Final = 3  # without which nothing can be said of a section
SOON: Final = 100  # answers in which every section has them
HALFWAY: Final = 50  # answers that a section may take to get them by itself


class Fresh(NamedTuple):
    """An entry the trainee has never been asked."""

    entry: str
    topic: str
    safety_critical: bool = False


class Coming(NamedTuple):
    """New entries in the order in which they are met.

    The first so many open topics that were never asked, the next so many sections with too few answers.
    """

    entries: tuple[Fresh, ...]
    first: int
    early: int


def newcomers(
    fresh: Sequence[Fresh],
    met: Mapping[str, int],
    aims: Aims,
    answers: Mapping[str, int],
    gains: Mapping[str, float] | None = None,
    ahead: float = SOON,
    owed: int = 0,
) -> Coming:
    """The new entries in order. `met` counts the entries met by part, `answers` the answers by entry.

    `ahead` is how many answers this session will have, `owed` how many safety-critical entries were missed and are
    still to be right: with many of them no new one is added.

    By gain where gains are known; else every part is met in step with what it counts in the paper.
    """
    if not fresh:
        return Coming((), 0, 0)
    order = _by_gain(fresh, aims, gains) if gains is not None else _in_step(fresh, met, aims)
    lots = _Lots(order, sum(met.values()), aims, safety_first=gains is None, safety=owed < OWED_MOST)
    first = list(_opening(lots, order, aims, answers))
    before = sum(answers.values())
    pressing = before < SOON and before + ahead >= HALFWAY
    early = list(_sections(lots, order, aims, answers, first)) if pressing else []
    return Coming((*first, *early, *lots.rest()), len(first), len(early))


def _by_gain(fresh: Sequence[Fresh], aims: Aims, gains: Mapping[str, float]) -> list[Fresh]:
    return sorted(fresh, key=lambda one: -weighed(gains.get(one.entry, 0.0), one.entry, aims))


def _in_step(fresh: Sequence[Fresh], met: Mapping[str, int], aims: Aims) -> list[Fresh]:
    """Part by part, each in its own order, so that the entries met of each part grow with what it counts."""
    parts: dict[str, list[int]] = {}
    for at, one in enumerate(fresh):
        parts.setdefault(part_of(one.entry), []).append(at)
    keys = [0.0] * len(fresh)
    known, usual = aims.weights, 0.0 if aims.weights else 1.0  # read as `aims.weight` does: hundreds of them at once
    for part, places in parts.items():
        count, seen = len(places), met.get(part, 0)
        total = 0.0
        for at in places:
            total += known.get(fresh[at].entry, usual) / count
        # What is met has counted like what is left.
        share = (total or 1.0) * (count + seen)
        for nth, at in enumerate(places):
            keys[at] = (seen + nth + 0.5) / share
    return [fresh[at] for at in sorted(range(len(fresh)), key=keys.__getitem__)]


class _Lots:
    """The new entries in three lines: safety-critical, asked by the paper, and others. Each is drawn once.

    In their turn safety-critical ones come first, or else only when they are next in the order anyway.
    """

    def __init__(self, order: Sequence[Fresh], met: int, aims: Aims, *, safety_first: bool, safety: bool) -> None:
        self._open, self._first = safety, safety_first
        self._rank = {} if safety_first else {one.entry: at for at, one in enumerate(order)}
        self._lines: tuple[deque[Fresh], deque[Fresh], deque[Fresh]] = deque(), deque(), deque()
        known, usual = aims.weights, 0.0 if aims.weights else 1.0
        for one in order:
            self._lines[0 if one.safety_critical else 1 if known.get(one.entry, usual) > 0 else 2].append(one)
        self._met = met

    def rest(self) -> list[Fresh]:
        """All that is left: one in three safety-critical, one in eight of what the paper does not ask.

        Where the line whose turn it is holds none, the next after it has it.
        """
        safety, asked, others = self._lines
        found: list[Fresh] = []
        for met in range(self._met, self._met + len(safety) + len(asked) + len(others)):
            if met % UNASKED_IN == UNASKED_IN - 1:
                line = others or asked or safety
            elif met % SAFETY_IN == SAFETY_IN - 1 and self._open and (self._first or self._earlier(safety, asked)):
                line = safety or asked or others
            else:
                line = asked or others or safety
            found.append(line.popleft())
        return found

    def of(self, wanted: Collection[str]) -> Fresh | None:
        """The next of these entries, a safety-critical one only in its turn."""
        turn = self._open and self._met % SAFETY_IN == SAFETY_IN - 1
        safety = self._lines[0] if turn else deque[Fresh]()
        lines = (safety, *self._lines[1:]) if self._first else (*self._lines[1:], safety)
        for line in lines:
            for one in line:
                if one.entry in wanted:
                    line.remove(one)
                    self._met += 1
                    return one
        return None

    def _earlier(self, one: deque[Fresh], other: deque[Fresh]) -> bool:
        return bool(one) and (not other or self._rank[one[0].entry] < self._rank[other[0].entry])


def _opening(lots: _Lots, order: Sequence[Fresh], aims: Aims, answers: Mapping[str, int]) -> Iterator[Fresh]:
    """An entry of each topic that the paper asks and nobody has asked yet."""
    if not aims.weights:
        return
    unasked = {one.topic for one in order}
    for entry in answers:  # most often all are found among the first of them
        unasked.discard(entry.partition("/")[0])
        if not unasked:
            return
    for topic in dict.fromkeys(one.topic for one in order if one.topic in unasked and aims.weight(one.entry)):
        if one := lots.of({one.entry for one in order if one.topic == topic}):
            yield one


def _sections(
    lots: _Lots, order: Sequence[Fresh], aims: Aims, answers: Mapping[str, int], planned: Sequence[Fresh]
) -> Iterator[Fresh]:
    """As many new entries of each section as it lacks answers."""
    taken = Counter(answers) + Counter(one.entry for one in planned)
    here = {one.entry for one in order}
    for section in aims.sections:
        for _ in range(SECTION_ANSWERS - sum(taken[entry] for entry in section & taken.keys())):
            if one := lots.of(section & here):
                taken[one.entry] += 1
                yield one
