"""The columns of values that the estimate of recall weighs, and the chance of an answer at each of them. Pure."""

from __future__ import annotations

from functools import lru_cache
from typing import Any, Final

from quizzer.recall.guess import GUESS, SELDOM
from quizzer.values import NamedTuple

# Days, where nobody's answers say otherwise, and how far that may be out (of the logarithm). Chosen so that learners
# whose recall halves in 60 days by topic, and those whose items fade as a power of time, are promised about as much.
USUAL_HALF_LIFE: Final = 110.0
SPREAD_UNKNOWN: Final = 0.9
LEVELS = tuple(at / 20 for at in range(1, 20))
KAPPAS = (4.0, 9.0, 20.0)
HALF_LIVES = tuple(8.0 * 1.25**at for at in range(24))  # 8 to 1,350 days
POINTS: Final = 30
CLOCKS: Final = 2  # of a topic's forgetting: since its last answer, since the person's first of all
GAP_EDGES = (1, 2, 4, 7, 11, 17, 26, 41, 61, 91, 151, 301)
_GAP_DAYS = (0.0, 1.0, 2.5, 5.0, 8.5, 13.5, 21.0, 33.0, 50.0, 75.0, 120.0, 220.0, 450.0)
GAPS: Final = len(_GAP_DAYS)
RESTS: Final = 5  # steps of what is left to answer from where an entry's own memory is gone


class RecallGrid(NamedTuple):
    """Everything that does not depend on anybody's answers.

    `first` and `again` are the log chances of a right and of a wrong answer, rows by gap, (rest,) and kind, columns by
    half-life and point of recall; `prior` the points by cells of level and kappa, `moments` the same times each point,
    and beside it times its square; `cells` and `own_cells` the weights of the cells before any data, for topics and for
    entries just practised; `lives` those of the half-lives.
    """

    first: tuple[Any, Any]
    again: tuple[Any, Any]
    prior: Any
    moments: Any
    cells: Any
    own_cells: Any
    half_lives: Any
    lives: Any


@lru_cache(maxsize=1)
def grid() -> RecallGrid:
    """The grid, made once."""
    import numpy as np

    points, half_lives = (np.arange(POINTS) + 0.5) / POINTS, np.array(HALF_LIVES)
    kept = 2.0 ** (-np.array(_GAP_DAYS)[:, None] / half_lives)[:, None, None, :, None]
    rest = ((np.arange(RESTS) + 0.5) / RESTS)[None, :, None, None, None]
    guess = np.array([SELDOM, GUESS])[None, None, :, None, None]
    recall = points[None, None, None, None, :]
    first = guess[:, 0] + (1 - guess[:, 0]) * (recall * kept)[:, 0]
    again = guess + (1 - guess) * (recall * kept + rest * (1 - kept))
    level = np.array([level for level in LEVELS for _ in KAPPAS])
    logs, prior = np.log(half_lives), _prior(points)
    return RecallGrid(
        _logs(first, GAPS * 2),
        _logs(again, GAPS * RESTS * 2),
        prior,
        np.hstack([prior * points[:, None] ** n for n in (1, 2)]),
        whole(level**1.5 * (1 - level)),
        whole(level**4 * (1 - level) ** 0.5),
        half_lives,
        whole(np.exp(-0.5 * ((logs - np.log(USUAL_HALF_LIFE)) / SPREAD_UNKNOWN) ** 2)),
    )


def kept_after(days: Any) -> Any:
    """The share of recall left after these days, for each half-life."""
    import numpy as np

    return 2.0 ** (-np.asarray(days, dtype=float)[..., None] / grid().half_lives)


def whole(weights: Any) -> Any:
    """Weights that add up to 1."""
    return weights / weights.sum()


def _logs(chance: Any, rows: int) -> tuple[Any, Any]:
    import numpy as np

    chance = chance.reshape(rows, -1)
    return np.log(chance), np.log1p(-chance)


def _prior(points: Any) -> Any:
    """The beta distribution of each cell over the points, columns that add up to 1."""
    import numpy as np

    level = np.array([level for level in LEVELS for _ in KAPPAS])
    kappa = np.array([kappa for _ in LEVELS for kappa in KAPPAS])
    a, b = kappa * level, kappa * (1 - level)
    prior = np.exp((a - 1) * np.log(points)[:, None] + (b - 1) * np.log1p(-points)[:, None])
    return prior / prior.sum(axis=0)
