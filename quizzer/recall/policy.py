"""The order of a session by gain: what brings most recall on the exam day for a second spent today."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import fsum
from typing import Any, Final, cast

from quizzer.recall.belief import PACES, Belief
from quizzer.recall.following import (
    ABILITIES,
    ABILITY_SHARES,
    DIFFICULTIES,
    DIFFICULTY_SHARES,
    LEAST_DAYS,
    HalfLives,
    Traces,
)
from quizzer.recall.gain import Course
from quizzer.recall.half_life_gain import ahead, gain_by_half_life, gain_of_new_by_half_life
from quizzer.recall.trace_gain import gain_by_traces
from quizzer.values import NamedTuple

GRID: Final = 16  # abilities for which the gain of a new entry is worked out
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

    known = [entry for entry in met if entry in belief.entries]
    total = np.zeros(len(known) + len(fresh))
    for place, weight in heard(belief.weights):
        pace = place % len(PACES)
        course = Course(time.sessions, time.step, PACES[pace], time.price)
        by = _by_half_lives if place < len(PACES) else _by_traces
        total += weight * by(belief, pace, known, fresh, time.day, course)
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
    belief: Belief, pace: int, met: Sequence[str], fresh: Sequence[str], day: float, course: Course
) -> Any:
    import numpy as np

    values = ahead(course)
    untold = _shares(belief.prior.difficulties, fresh, DIFFICULTY_SHARES)
    new = gain_of_new_by_half_life(values, untold, DIFFICULTIES, course)
    if not met:
        return new
    model = cast("HalfLives", belief.halves.model)
    at = [belief.entries[entry] for entry in met]
    shares, half_life = belief.halves.shares[pace, at], model.values[pace, at]
    elapsed = np.maximum(day - model.last[at], 0.0)
    mean = np.exp((shares * np.log(half_life)).sum(-1))
    old = gain_by_half_life(values, mean, shares @ np.array(DIFFICULTIES), elapsed, course)
    return np.concatenate([old, new])


def _by_traces(belief: Belief, pace: int, met: Sequence[str], fresh: Sequence[str], day: float, course: Course) -> Any:
    import numpy as np

    untold = _shares(belief.prior.abilities, fresh, ABILITY_SHARES) @ np.array(ABILITIES)
    new = _of_new(untold, course)
    if not met:
        return new
    model = cast("Traces", belief.traces.model)
    at = [belief.entries[entry] for entry in met]
    shares, laid = belief.traces.shares[pace, at], model.laid[pace, at]
    decays = (shares[:, None, :] * model.decays[pace, at]).sum(-1)
    old = gain_by_traces(shares @ np.array(ABILITIES), np.maximum(day - laid, LEAST_DAYS), decays, course)
    return np.concatenate([old, new])


def _of_new(ability: Any, course: Course) -> Any:
    """The gains of entries without traces, which differ by their ability alone: between those of a few abilities."""
    import numpy as np

    if not len(ability):
        return np.zeros(0)
    least, most = ability.min(), ability.max()
    grid = np.linspace(least, most + 1e-6, min(len(ability), GRID) if most > least else 1)
    nothing = np.full((len(grid), 1), np.inf)
    return np.interp(ability, grid, gain_by_traces(grid, nothing, np.ones((len(grid), 1)), course))


def _shares(told: Mapping[str, Sequence[float]], entries: Sequence[str], usual: Sequence[float]) -> Any:
    import numpy as np

    return np.array([told.get(entry, usual) for entry in entries]).reshape(-1, len(usual))
