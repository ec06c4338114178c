"""The order of a session by gain: what brings most recall on the exam day for a second spent today."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import fsum
from typing import Any, Final, NamedTuple, cast

from quizzer.insight.belief import (
    ABILITIES,
    ABILITY_SHARES,
    DIFFICULTIES,
    DIFFICULTY_SHARES,
    LEAST_DAYS,
    PACES,
    Belief,
    Followed,
    HalfLives,
    Traces,
)
from quizzer.insight.gain import Course
from quizzer.insight.half_life_gain import ahead, gain_by_half_life, gain_of_new_by_half_life
from quizzer.insight.trace_gain import gain_by_traces

LEAST_WEIGHT: Final = 0.05  # under which a shape of forgetting is not heard


class Gains(NamedTuple):
    """Recall on the exam day gained for a second spent today, by entry: of those met, and of those not yet met.

    A gain may be negative: later is better then.
    """

    met: dict[str, float]
    new: dict[str, float]


class Time(NamedTuple):
    """Today (as the answers count days), the sessions left before the exam, today's with them, and the days between.

    `price` is that of a second at one day before the exam (`gain.price_of`).
    """

    day: float
    sessions: int
    step: float
    price: float


def gains(belief: Belief, met: Iterable[str], fresh: Sequence[str], time: Time) -> Gains:
    """The gains under both shapes of forgetting, each at its likeliest pace, by the weight of the shapes."""
    import numpy as np

    known = [entry for entry in met if entry in belief.models[0].entries]
    total = np.zeros(len(known) + len(fresh))
    for place, weight in heard(belief.weights):
        model = belief.models[place]
        course = Course(time.sessions, time.step, model.pace, time.price)
        by = _by_half_lives if place < len(PACES) else _by_traces
        total += weight * by(belief, model, known, fresh, time.day, course)
    found = total.tolist()
    return Gains(dict(zip(known, found, strict=False)), dict(zip(fresh, found[len(known) :], strict=True)))


def heard(weights: Sequence[float]) -> list[tuple[int, float]]:
    """The place of the likeliest pace of each shape of forgetting, and the weight of that shape, if it is heard.

    >>> heard((0.1, 0.6, 0.0, 0.1, 0.1, 0.1))
    [(1, 0.7), (3, 0.3)]
    """
    shapes = [range(start, start + len(PACES)) for start in (0, len(PACES))]
    found = [(max(shape, key=weights.__getitem__), fsum(weights[place] for place in shape)) for shape in shapes]
    return [(place, round(weight, 12)) for place, weight in found if weight > LEAST_WEIGHT]


def _by_half_lives(
    belief: Belief, model: Followed, met: Sequence[str], fresh: Sequence[str], day: float, course: Course
) -> Any:
    import numpy as np

    values, states = ahead(course), [cast("HalfLives", model.entries[entry]) for entry in met]
    shares = np.array([state.shares for state in states]).reshape(-1, len(DIFFICULTIES))
    half_life = np.array([state.values for state in states]).reshape(-1, len(DIFFICULTIES))
    elapsed = np.maximum(day - np.array([state.last for state in states]), 0.0)
    mean = np.exp((shares * np.log(half_life)).sum(-1))
    old = gain_by_half_life(values, mean, shares @ np.array(DIFFICULTIES), elapsed, course)
    untold = _shares(belief.prior.difficulties, fresh, DIFFICULTY_SHARES)
    return np.concatenate([old, gain_of_new_by_half_life(values, untold, DIFFICULTIES, course)])


def _by_traces(
    belief: Belief, model: Followed, met: Sequence[str], fresh: Sequence[str], day: float, course: Course
) -> Any:
    import numpy as np

    states = [cast("Traces", model.entries[entry]) for entry in met]
    most = max([1, *(len(state.laid) for state in states)])
    count = len(met) + len(fresh)
    days, decays = np.full((count, most), np.inf), np.ones((count, most))
    for at, state in enumerate(states):
        for n, (laid, decay) in enumerate(state.laid):
            days[at, n] = max(day - laid, LEAST_DAYS)
            decays[at, n] = fsum(share * each for share, each in zip(state.shares, decay, strict=True))
    shares = [*(state.shares for state in states), *_shares(belief.prior.abilities, fresh, ABILITY_SHARES)]
    ability = np.array(shares).reshape(-1, len(ABILITIES)) @ np.array(ABILITIES)
    return gain_by_traces(ability, days, decays, course)


def _shares(told: Mapping[str, Sequence[float]], entries: Sequence[str], usual: Sequence[float]) -> Any:
    import numpy as np

    return np.array([told.get(entry, usual) for entry in entries]).reshape(-1, len(usual))
