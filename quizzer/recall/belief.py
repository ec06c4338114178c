"""What a learner's own answers tell of their memory: which model fits, how fast they forget, how hard each entry is.

Six models run side by side: two shapes of forgetting, each at three paces. Within each, an entry's difficulty is one of
seven classes whose shares start at those of all entries and move with every answer (so few answers move them little).
Every answer is first predicted and only then learned from, so all predictions are of held-out answers, and the models'
weights follow from how well they predicted. What other people's answers tell (`others.py`) may come before it all.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from quizzer.recall.following import (
    ABILITY_SHARES,
    DIFFICULTY_SHARES,
    Attempt,
    Followed,
    HalfLives,
    Traces,
    rounds_of,
    shares_of,
)
from quizzer.values import NamedTuple

PACES: Final = (0.7, 1.0, 1.4)
PACE_SHARES: Final = (0.15, 0.7, 0.15)


class Prediction(NamedTuple):
    """What was thought of an answer before it was known: the chance of its being right; and whether it was."""

    chance: float
    right: bool


class Prior(NamedTuple):
    """What is believed before the first answer.

    The shares of the classes of difficulty and of ability by entry, where others have answered it; the weights of the
    two shapes of forgetting; and how well the others' answers were predicted.
    """

    difficulties: Mapping[str, Sequence[float]]
    abilities: Mapping[str, Sequence[float]]
    shapes: tuple[float, float]
    predictions: Sequence[Prediction]


NOBODY: Final = Prior({}, {}, (0.5, 0.5), ())


class Belief(NamedTuple):
    """All models after all answers: their weights, which add up to 1, and what they predicted together.

    `entries` numbers the entries met, as the arrays of `halves` and `traces` have them (None before the first answer).
    """

    entries: Mapping[str, int]
    halves: Followed | None
    traces: Followed | None
    weights: tuple[float, ...]
    predictions: tuple[Prediction, ...]
    prior: Prior


def believe(trials: Sequence[Attempt], prior: Prior = NOBODY) -> Belief:
    """What the answers tell, oldest first. Drills are left out by the caller."""
    import numpy as np

    logs = np.log([shape * share for shape in prior.shapes for share in PACE_SHARES])
    if not trials:
        return Belief({}, None, None, tuple(shares_of(logs).tolist()), (), prior)
    names, rounds = rounds_of([trials])
    hard = _shares(prior.difficulties, names, DIFFICULTY_SHARES)
    able = _shares(prior.abilities, names, ABILITY_SHARES)
    halves = Followed(HalfLives(rounds, PACES), hard, rounds, len(PACES))
    traces = Followed(Traces(rounds, PACES), able, rounds, len(PACES))
    weights, predictions = _weigh(halves, traces, logs)
    numbers = {name: at for at, name in enumerate(names)}
    return Belief(numbers, halves, traces, weights, predictions, prior)


def _shares(told: Mapping[str, Sequence[float]], names: Sequence[str], usual: Sequence[float]) -> Any:
    import numpy as np

    return np.array([told.get(name, usual) for name in names]).reshape(-1, len(usual))


def _weigh(halves: Followed, traces: Followed, logs: Any) -> tuple[tuple[float, ...], tuple[Prediction, ...]]:
    """The weights after all answers, and what the models said together before each one but first sights."""
    import numpy as np

    order = np.argsort(halves.at)
    chances, right = np.concatenate([halves.chances, traces.chances])[:, order].T, halves.right[order]
    told = logs + np.cumsum(np.log(np.where(right[:, None], chances, 1 - chances)), 0)
    before = np.concatenate([logs[None], told])
    together = (shares_of(before[:-1]) * chances).sum(-1)
    predictions = zip(together.tolist(), right.tolist(), strict=True)
    return tuple(shares_of(before[-1]).tolist()), tuple(map(Prediction._make, predictions))
