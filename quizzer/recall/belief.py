"""What a learner's own answers tell of their memory: which model fits, how fast they forget, how hard each entry is.

Six models run side by side: two shapes of forgetting, each at three paces. Within each, an entry's difficulty is one of
seven classes whose shares start at those of all entries and move with every answer (so few answers move them little).
Every answer is first predicted and only then learned from, so all predictions are of held-out answers, and the models'
weights follow from how well they predicted. What other people's answers tell (`others.py`) may come before it all.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from copy import deepcopy
from typing import Any, Final

from quizzer.recall.following import (
    ABILITY_SHARES,
    DIFFICULTY_SHARES,
    Attempt,
    Followed,
    HalfLives,
    Round,
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

    `entries` numbers the entries met, as the arrays of `halves` and `traces` have them. `told` is the logarithm of what
    the answers tell of the models.
    """

    entries: Mapping[str, int]
    halves: Followed
    traces: Followed
    told: Any
    weights: tuple[float, ...]
    predictions: tuple[Prediction, ...]
    prior: Prior


def believe(trials: Sequence[Attempt], prior: Prior = NOBODY) -> Belief:
    """What the answers tell, oldest first. Drills are left out by the caller."""
    import numpy as np

    halves = Followed(HalfLives(PACES), len(PACES), len(DIFFICULTY_SHARES))
    most = max(Counter(trial.entry for trial in trials).values(), default=1)
    traces = Followed(Traces(PACES, most), len(PACES), len(ABILITY_SHARES))
    weights = tuple(shares_of(_logs(prior)).tolist())
    return go_on(Belief({}, halves, traces, np.zeros(len(weights)), weights, (), prior), trials)


def go_on(belief: Belief, trials: Sequence[Attempt]) -> Belief:
    """What more answers tell, oldest first and none older than those before: what all of them together would."""
    import numpy as np

    if not trials:
        return belief
    names, rounds = rounds_of([trials])
    new = [name for name in names if name not in belief.entries]
    numbers = {**belief.entries, **{name: at for at, name in enumerate(new, len(belief.entries))}}
    here = np.array([numbers[name] for name in names])
    met = here[rounds[0].pair] < len(belief.entries)
    first, again = (Round(*(column[which] for column in rounds[0])) for which in (~met, met))
    later = [now._replace(pair=here[now.pair]) for now in (again, *rounds[1:]) if len(now.pair)]
    halves, traces = deepcopy((belief.halves, belief.traces))
    halves.follow(first, _shares(belief.prior.difficulties, new, DIFFICULTY_SHARES), later)
    traces.follow(first, _shares(belief.prior.abilities, new, ABILITY_SHARES), later)
    told, weights, predictions = _weigh(halves, traces, _logs(belief.prior), belief.told)
    return Belief(numbers, halves, traces, told, weights, (*belief.predictions, *predictions), belief.prior)


def _logs(prior: Prior) -> Any:
    import numpy as np

    return np.log([shape * share for shape in prior.shapes for share in PACE_SHARES])


def _shares(told: Mapping[str, Sequence[float]], names: Sequence[str], usual: Sequence[float]) -> Any:
    import numpy as np

    return np.array([told.get(name, usual) for name in names]).reshape(-1, len(usual))


def _weigh(
    halves: Followed, traces: Followed, logs: Any, before: Any
) -> tuple[Any, tuple[float, ...], tuple[Prediction, ...]]:
    """What all answers tell, the weights after them, and what the models said together before each but first sights.

    `before` is what the answers before these told.
    """
    import numpy as np

    order = np.argsort(halves.at)
    chances, right = np.concatenate([halves.chances, traces.chances])[:, order].T, halves.right[order]
    told = np.cumsum(np.concatenate([before[None], np.log(np.where(right[:, None], chances, 1 - chances))]), 0)
    together = (shares_of(logs + told[:-1]) * chances).sum(-1)
    predictions = zip(together.tolist(), right.tolist(), strict=True)
    return told[-1], tuple(shares_of(logs + told[-1]).tolist()), tuple(map(Prediction._make, predictions))
