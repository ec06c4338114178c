"""The order of a session by gain: what brings most recall on the exam day for a second spent today."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log
from typing import NamedTuple

from quizzer.schedule.belief import (
    ABILITIES,
    ABILITY_SHARES,
    DIFFICULTIES,
    DIFFICULTY_SHARES,
    Belief,
    HalfLives,
    State,
    Traces,
)
from quizzer.schedule.gain import Course
from quizzer.schedule.half_life_gain import ahead, gain_by_half_life, gain_of_new_by_half_life
from quizzer.schedule.trace_gain import gain_by_traces, plans
from quizzer.schedule.trust import leading


class Gains(NamedTuple):
    """Recall on the exam day gained for a second spent today: by entry met, and for any entry not yet met."""

    met: dict[str, float]
    new: float


def gains(belief: Belief, entries: Sequence[str], day: float, sessions: int, step: float, price: float) -> Gains:
    """The gains under the leading model; `entries` are those met, `day` counts as the answers' days do.

    `sessions` are left before the exam, today's with them, `step` days apart; `price` is that of a second at one
    day before the exam (`gain.price_of`). A gain may be negative: later is better then.
    """
    model = belief.models[leading(belief.weights)]
    course = Course(sessions, step, model.pace, price)
    states = {entry: model.entries[entry] for entry in entries if entry in model.entries}
    if any(isinstance(state, HalfLives) for state in model.entries.values()):
        return _by_half_lives(states, day, course)
    return _by_traces(states, day, course)


def _by_half_lives(states: dict[str, State], day: float, course: Course) -> Gains:
    values = ahead(course)
    met: dict[str, float] = {}
    for entry, state in states.items():
        if isinstance(state, HalfLives):
            half_life = exp(_mean(state.shares, [log(value) for value in state.values]))
            difficulty = _mean(state.shares, DIFFICULTIES)
            met[entry] = gain_by_half_life(values, half_life, difficulty, max(day - state.last, 0.0), course)
    shares = tuple(zip(DIFFICULTIES, DIFFICULTY_SHARES, strict=True))
    return Gains(met, gain_of_new_by_half_life(values, shares, course))


def _by_traces(states: dict[str, State], day: float, course: Course) -> Gains:
    ways = plans(course.sessions)
    met: dict[str, float] = {}
    for entry, state in states.items():
        if isinstance(state, Traces):
            laid = [(max(day - then, 0.04), _mean(state.shares, decays)) for then, decays in state.laid]
            met[entry] = gain_by_traces(ways, _mean(state.shares, ABILITIES), laid, course)
    return Gains(met, gain_by_traces(ways, _mean(ABILITY_SHARES, ABILITIES), (), course))


def _mean(shares: Sequence[float], values: Sequence[float]) -> float:
    return sum(share * value for share, value in zip(shares, values, strict=True))
