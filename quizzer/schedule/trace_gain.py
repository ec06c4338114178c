"""Recall gained a second where every exposure leaves a trace.

Of a few hundred plans the best with a review today stands against the best without.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp
from typing import Final

from quizzer.schedule.forgetting import decay_at, recall_by_strength, trace
from quizzer.schedule.gain import Course, cost

STARTS: Final = (0, 1, 2, 4, 7, 11, 16, 22, 30)
LAST_REVIEWS: Final = (1, 3, 6, 9)
SHRINKS: Final = (1.0, 0.75)

Plan = tuple[int, ...]


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
    ways = [sum(weights[: step + 1]) / sum(weights) for step in range(count)]
    return tuple(dict.fromkeys([first, *(round(first - (first - last) * way) for way in ways)]))


def gain_by_traces(
    ways: Sequence[Plan], ability: float, traces: Sequence[tuple[float, float]], course: Course
) -> float:
    """Recall gained a second by a review today, of an entry with these traces.

    `ways` are the `plans` of the sessions left; a trace is (days since it was laid, decay).
    """
    values = _Plans(exp(ability), traces, course)
    today = course.sessions
    now = max(values.of(plan) for plan in ways if plan[0] == today)
    wait = max([values.of(()), *(values.of(plan) for plan in ways if plan[0] != today)])
    return (now - wait) / cost(values.recall(today, ()))


class _Plans:
    """The values of plans for one entry; what plans share is worked out once."""

    def __init__(self, scale: float, traces: Sequence[tuple[float, float]], course: Course) -> None:
        self._scale = scale
        self._traces = traces
        self._course = course
        self._left: dict[int, float] = {}
        self._laid: dict[Plan, tuple[tuple[tuple[int, float], ...], float]] = {(): ((), 0.0)}

    def of(self, plan: Plan) -> float:
        """Recall on the exam day after the plan, minus the price of its reviews."""
        laid, paid = self._after(plan)
        return _recall(self._strength(0, laid)) - paid

    def recall(self, left: int, plan: Plan) -> float:
        """The chance of recall so many sessions before the exam, after the plan."""
        return _recall(self._strength(left, self._after(plan)[0]))

    def _after(self, plan: Plan) -> tuple[tuple[tuple[int, float], ...], float]:
        if plan not in self._laid:
            laid, paid = self._after(plan[:-1])
            strength = self._strength(plan[-1], laid)
            paid += self._course.seconds_price(plan[-1]) * cost(_recall(strength))
            self._laid[plan] = ((*laid, (plan[-1], decay_at(strength))), paid)
        return self._laid[plan]

    def _strength(self, left: int, laid: tuple[tuple[int, float], ...]) -> float:
        unit = self._course.step * self._course.pace
        if left not in self._left:
            on = (self._course.sessions - left) * self._course.step
            self._left[left] = sum(trace((days + on) * self._course.pace, decay) for days, decay in self._traces)
        return self._scale * (self._left[left] + sum(trace((then - left) * unit, decay) for then, decay in laid))


def _recall(strength: float) -> float:
    return recall_by_strength(strength) if strength > 0 else 0.0
