"""What the people of a store tell of one more: how much is known, how fast it is forgotten, how they differ. Pure.

Half-lives are spread about an unknown middle by an unknown spread, and so are levels; both are weighed by what each
person's answers say. Which clock forgetting goes by is taken to be the same for all. The spread is never narrow,
however many people there are, and some weight stays with what is usual anywhere, because the next person may be of
another kind.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from quizzer.recall.meetings import Answers
from quizzer.recall.recall_grid import CLOCKS, KAPPAS, LEVELS, grid, whole
from quizzer.recall.topics import evidence, usual

_UNLIKE: Final = 0.6  # the chance that a newcomer is like nobody here
_LIFE_SPREADS = (0.5, 0.7, 1.0)  # of the logarithm of half-lives
_LEVEL_SPREADS = (0.5, 0.8, 1.2)  # of the logarithm of the odds
_KAPPAS_LIKE: Final = 10.0  # people whose topics would lie about their level as is usual
_ROUNDS: Final = 2  # of learning half-lives and levels from each other


def shared(people: Sequence[Answers], topics: int, today: int) -> Any:
    """The weights of half-lives and cells for somebody of whom nothing is known, from what the others' answers say."""
    import numpy as np

    if not people:
        return usual()
    logs = [evidence(one, topics, today).logs for one in people]
    likelihoods = np.array([np.exp(one - one.max()) for one in logs])
    lives, cells = usual().sum(axis=1), grid().cells
    for _ in range(_ROUNDS):
        lives = _lives(likelihoods @ cells)
        cells = _cells(np.einsum("h,nhc->nc", lives, likelihoods), cells)
    return (1 - _UNLIKE) * np.outer(lives, cells) + _UNLIKE * usual()


def _lives(found: Any) -> Any:
    """The half-life by each clock of one more person, from each one's likelihood of them."""
    import numpy as np

    logs = np.log(grid().half_lives)
    near = np.kron(np.eye(CLOCKS), _near(logs, _LIFE_SPREADS))
    return _newcomer(found, near, np.tile(grid().lives, CLOCKS * len(_LIFE_SPREADS)))


def _cells(found: Any, cells: Any) -> Any:
    """Level and kappa of one more person, from each one's likelihood of the cells."""
    import numpy as np

    shape = (len(LEVELS), len(KAPPAS))
    kappas = cells.reshape(shape).sum(axis=0)
    table = found.reshape(len(found), *shape)
    levels = np.array(LEVELS)
    near = _near(np.log(levels / (1 - levels)), _LEVEL_SPREADS)
    level = _newcomer(table @ kappas, near, np.tile(grid().cells.reshape(shape).sum(axis=1), len(_LEVEL_SPREADS)))
    by_kappa = np.einsum("l,nlk->nk", level, table) * kappas
    by_kappa /= by_kappa.sum(axis=1, keepdims=True)
    return np.outer(level, whole(_KAPPAS_LIKE / len(KAPPAS) + by_kappa.sum(axis=0))).ravel()


def _near(logs: Any, spreads: Sequence[float]) -> Any:
    """How likely each value (column) is for a person, for each middle and spread (rows)."""
    import numpy as np

    near = np.concatenate([np.exp(-0.5 * ((logs[None, :] - logs[:, None]) / spread) ** 2) for spread in spreads])
    return near / near.sum(axis=1, keepdims=True)


def _newcomer(found: Any, near: Any, beforehand: Any) -> Any:
    """The values of one more person, where middle and spread are weighed by what all the others show."""
    import numpy as np

    middle = np.log(beforehand) + np.log(found @ near.T + 1e-300).sum(axis=0)
    return whole(np.exp(middle - middle.max())) @ near
