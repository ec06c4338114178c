"""Recall gained a second where every exposure leaves a trace.

Of a few hundred plans the best with a review today stands against the best without.
"""

from __future__ import annotations

from functools import lru_cache
from math import fsum
from typing import Any, Final

from quizzer.recall.forgetting import DAY, decay_at, recall_by_strength
from quizzer.recall.gain import Course, cost
from quizzer.values import NamedTuple

STARTS: Final = (0, 1, 2, 4, 7, 11, 16, 22, 30)
LAST_REVIEWS: Final = (1, 3, 6, 9)
SHRINKS: Final = (1.0, 0.75)

Plan = tuple[int, ...]


@lru_cache
def plans(sessions: int) -> tuple[Plan, ...]:
    """Ways to spend the sessions left on one entry, each as the sessions left at its reviews; shorter ones first.

    Up to five reviews, from one of a few starts to one of a few last reviews, evenly or with gaps that shrink:
    what linear programming found best in this model.
    """
    found: set[Plan] = {(sessions - start,) for start in STARTS if start < sessions}
    for first in [sessions - start for start in STARTS if start < sessions]:
        found |= {
            _spread(first, last, count, shrink)
            for last in LAST_REVIEWS
            if last < first
            for count in (1, 2, 3, 4)
            for shrink in SHRINKS
        }
    return tuple(sorted(found, key=lambda plan: (len(plan), plan)))


def _spread(first: int, last: int, count: int, shrink: float) -> Plan:
    weights = [shrink**step for step in range(count)]
    ways = [fsum(weights[: step + 1]) / fsum(weights) for step in range(count)]
    return tuple(dict.fromkeys([first, *(round(first - (first - last) * way) for way in ways)]))


def gain_by_traces(ability: Any, days: Any, decays: Any, course: Course) -> Any:
    """Recall gained a second by a review today, for each entry.

    `ability` is one number an entry; `days` since each of its traces was laid and their `decays` have the entries
    first and the traces last. A trace that is not there was laid `inf` days ago.
    """
    import numpy as np

    values = _Values(np.exp(ability), days, decays, course)
    now, wait = np.full(np.shape(ability), -np.inf), values.without
    for level in _levels(course.sessions):
        worth = values.of(level)
        today = np.array([plan[0] == course.sessions for plan in level.plans])
        asked = np.array(level.asked)
        if (asked & today).any():
            now = np.maximum(now, worth[asked & today].max(0))
        if (asked & ~today).any():
            wait = np.maximum(wait, worth[asked & ~today].max(0))
    return (now - wait) / cost(values.recall_today)


class _Level(NamedTuple):
    """Plans of one length: each with the place of what it begins with on the level before, and whether it is meant."""

    plans: tuple[Plan, ...]
    parents: tuple[int, ...]
    asked: tuple[bool, ...]


@lru_cache
def _levels(sessions: int) -> tuple[_Level, ...]:
    meant = set(plans(sessions))
    found: list[_Level] = []
    before: dict[Plan, int] = {(): 0}
    for length in range(1, max(map(len, meant)) + 1):
        some = sorted({plan[:length] for plan in meant if len(plan) >= length})
        found.append(_Level(tuple(some), tuple(before[plan[:-1]] for plan in some), tuple(p in meant for p in some)))
        before = {plan: at for at, plan in enumerate(some)}
    return tuple(found)


class _Values:
    """The values of plans, level by level; arrays have the plans first and the entries last."""

    def __init__(self, scale: Any, days: Any, decays: Any, course: Course) -> None:
        import numpy as np

        self._scale, self._course = scale, course
        self._unit = course.step * course.pace
        on = (course.sessions - np.arange(course.sessions + 1)) * course.step
        logs = np.log((days[None] + on[:, None, None]) * course.pace * DAY)
        self._base = np.exp(-decays * logs).sum(-1)  # by sessions left
        self._laid: list[Any] = []  # the decays of the reviews so far
        self._paid: Any = np.zeros((1, len(scale)))
        self.recall_today = _recall(scale * self._base[course.sessions])
        self.without = _recall(scale * self._base[0])

    def of(self, level: _Level) -> Any:
        """Recall on the exam day after each plan of the next level, minus the price of its reviews."""
        import numpy as np

        parents, plans = list(level.parents), np.array(level.plans)
        self._laid = [decay[parents] for decay in self._laid]
        strength = self._strength(plans[:, -1], plans[:, :-1])
        price = np.array([self._course.seconds_price(left) for left in plans[:, -1].tolist()])
        self._paid = self._paid[parents] + price[:, None] * cost(_recall(strength))
        self._laid.append(decay_at(strength))
        return _recall(self._strength(np.zeros(len(plans), int), plans)) - self._paid

    def _strength(self, left: Any, reviews: Any) -> Any:
        import numpy as np

        total = self._base[left]
        for n, decay in enumerate(self._laid[: reviews.shape[1]]):
            total = total + np.exp(-decay * np.log((reviews[:, n] - left) * self._unit * DAY)[:, None])
        return self._scale * total


def _recall(strength: Any) -> Any:
    import numpy as np

    return np.where(strength > 0, recall_by_strength(np.where(strength > 0, strength, 1.0)), 0.0)
