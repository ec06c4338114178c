"""Recall gained a second where every exposure leaves a trace.

Of a few hundred plans the best with a review today stands against the best without.
"""

from __future__ import annotations

from functools import lru_cache
from math import fsum
from typing import Any, Final

from quizzer.insight.forgetting import decay_at, recall_by_strength, trace
from quizzer.insight.gain import Course, cost

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
            for last in LAST_REVIEWS if last < first for count in (1, 2, 3, 4) for shrink in SHRINKS
        }  # fmt: skip
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

    values = _Plans(np.exp(ability), days, decays, course)
    now, wait = np.full(np.shape(ability), -np.inf), values.of(())
    for plan in plans(course.sessions):
        if plan[0] == course.sessions:
            now = np.maximum(now, values.of(plan))
        else:
            wait = np.maximum(wait, values.of(plan))
    return (now - wait) / cost(values.recall(course.sessions, ()))


class _Plans:
    """The values of plans for some entries; what plans share is worked out once."""

    def __init__(self, scale: Any, days: Any, decays: Any, course: Course) -> None:
        self._scale, self._days, self._decays, self._course = scale, days, decays, course
        self._left: dict[int, Any] = {}
        self._laid: dict[Plan, tuple[tuple[tuple[int, Any], ...], Any]] = {(): ((), 0.0)}

    def of(self, plan: Plan) -> Any:
        """Recall on the exam day after the plan, minus the price of its reviews."""
        laid, paid = self._after(plan)
        return _recall(self._strength(0, laid)) - paid

    def recall(self, left: int, plan: Plan) -> Any:
        """The chance of recall so many sessions before the exam, after the plan."""
        return _recall(self._strength(left, self._after(plan)[0]))

    def _after(self, plan: Plan) -> tuple[tuple[tuple[int, Any], ...], Any]:
        if plan not in self._laid:
            laid, paid = self._after(plan[:-1])
            strength = self._strength(plan[-1], laid)
            paid = paid + self._course.seconds_price(plan[-1]) * cost(_recall(strength))
            self._laid[plan] = ((*laid, (plan[-1], decay_at(strength))), paid)
        return self._laid[plan]

    def _strength(self, left: int, laid: tuple[tuple[int, Any], ...]) -> Any:
        unit = self._course.step * self._course.pace
        if left not in self._left:
            on = (self._course.sessions - left) * self._course.step
            self._left[left] = trace((self._days + on) * self._course.pace, self._decays).sum(-1)
        return self._scale * (self._left[left] + sum(trace((then - left) * unit, decay) for then, decay in laid))


def _recall(strength: Any) -> Any:
    import numpy as np

    return np.where(strength > 0, recall_by_strength(np.where(strength > 0, strength, 1.0)), 0.0)
