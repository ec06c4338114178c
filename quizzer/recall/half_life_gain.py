"""Recall gained a second where memories halve, from a table of what an entry is worth so many sessions ahead.

Half-lives, difficulties and days elapsed are arrays of any one shape, and so is what comes back.
"""

from __future__ import annotations

from functools import lru_cache
from math import exp
from typing import Any, Final

from quizzer.recall.forgetting import failed, first_half_life, passed, recall_by_half_life
from quizzer.recall.gain import SECONDS_WRONG, Course, cost
from quizzer.values import NamedTuple

GAPS: Final = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 17, 20, 24, 28, 33)
HALF_LIFE_STEP: Final = 0.4  # of the logarithm
HALF_LIVES: Final = tuple(0.3 * exp(step * HALF_LIFE_STEP) for step in range(24))
DIFFICULTIES: Final = (2.0, 4.0, 6.0, 8.0, 10.0)


@lru_cache(maxsize=256)
def ahead(course: Course) -> Any:
    """The value of an entry just answered, by sessions left, half-life and difficulty; not to be written to.

    It is the recall on the exam day minus the price of later reviews, when each comes at its best session. It hangs on
    nothing but the time there is, which learners of a simulation share.
    """
    import numpy as np

    half_life, difficulty = np.meshgrid(HALF_LIVES, DIFFICULTIES, indexing="ij")
    gaps = np.array([gap for gap in GAPS if gap < course.sessions] or [course.sessions])
    every = np.broadcast_to(difficulty, (len(gaps), *difficulty.shape))
    moves = _move(gaps[:, None, None] * course.step, half_life, every, course)
    values = np.ones((course.sessions + 1, *half_life.shape))
    for left in range(1, course.sessions + 1):
        best = recall_by_half_life(left * course.step * course.pace, half_life)
        some = int((gaps < left).sum())
        if some:
            best = np.maximum(best, _worths(values, moves, left - gaps[:some], course).max(0))
        values[left] = best
    values.flags.writeable = False
    return values


def _worths(values: Any, moves: _Move, left: Any, course: Course) -> Any:
    """What a review after each of the first gaps is worth, as many as there are in `left`."""
    import numpy as np

    some, rows = len(left), values[left]
    recall, price = moves.recall[:some], np.array([course.seconds_price(n) for n in left.tolist()])
    up, down = (_values_at(rows, _Spot(*(part[:some] for part in spot))) for spot in (moves.up, moves.down))
    return recall * up + (1 - recall) * down - price[:, None, None] * cost(recall)


def _values_at(rows: Any, at: _Spot) -> Any:
    """As `_value_at`, each gap in its own row of the table."""
    import numpy as np

    own = np.arange(len(rows))[:, None, None]
    left = rows[own, at.row, at.column] * (1 - at.down) + rows[own, at.row + 1, at.column] * at.down
    right = rows[own, at.row, at.column + 1] * (1 - at.down) + rows[own, at.row + 1, at.column + 1] * at.down
    return left * (1 - at.across) + right * at.across


class _Spot(NamedTuple):
    """Places between four points of the table: the lower rows and columns, and how far towards the next."""

    row: Any
    column: Any
    down: Any
    across: Any


def _spot(half_life: Any, difficulty: Any) -> _Spot:
    import numpy as np

    x = np.clip(np.log(half_life / HALF_LIVES[0]) / HALF_LIFE_STEP, 0.0, len(HALF_LIVES) - 1.001)
    y = np.clip((difficulty - DIFFICULTIES[0]) / 2, 0.0, len(DIFFICULTIES) - 1.001)
    row, column = x.astype(int), y.astype(int)
    return _Spot(row, column, x - row, y - column)


def _value_at(rows: Any, at: _Spot) -> Any:
    """The values of a table's rows at some spots, straight lines between its points."""
    left = rows[at.row, at.column] * (1 - at.down) + rows[at.row + 1, at.column] * at.down
    right = rows[at.row, at.column + 1] * (1 - at.down) + rows[at.row + 1, at.column + 1] * at.down
    return left * (1 - at.across) + right * at.across


class _Move(NamedTuple):
    """A review: the recall then, and where a right and a wrong answer lead."""

    recall: Any
    up: _Spot
    down: _Spot


def _move(days: Any, half_life: Any, difficulty: Any, course: Course) -> _Move:
    recall = recall_by_half_life(days * course.pace, half_life)
    up, down = passed(half_life, difficulty, recall), failed(half_life, difficulty, recall)
    return _Move(recall, _spot(up, difficulty), _spot(down, difficulty))


def _worth(values: Any, move: _Move, left: int, course: Course) -> Any:
    paid = course.seconds_price(left) * cost(move.recall)
    up, down = _value_at(values[left], move.up), _value_at(values[left], move.down)
    return move.recall * up + (1 - move.recall) * down - paid


def gain_by_half_life(values: Any, half_life: Any, difficulty: Any, elapsed: Any, course: Course) -> Any:
    """Recall gained a second by a review today; `elapsed` days since the last answer. May be negative."""
    import numpy as np

    left = course.sessions
    today = _move(elapsed, half_life, difficulty, course)
    best = recall_by_half_life((elapsed + left * course.step) * course.pace, half_life)
    for gap in (gap for gap in GAPS if gap < left):
        later = _move(elapsed + gap * course.step, half_life, difficulty, course)
        best = np.maximum(best, _worth(values, later, left - gap, course))
    return (_worth(values, today, left, course) - best) / cost(today.recall)


def gain_of_new_by_half_life(values: Any, shares: Any, difficulties: Any, course: Course) -> Any:
    """The same for entries never met, of whose difficulty only the shares of some classes are known.

    `shares` has the classes last, as many as there are `difficulties`.
    """
    import numpy as np

    at = _spot(np.array([first_half_life(difficulty) for difficulty in difficulties]), np.array(difficulties))

    def started(left: int) -> Any:
        return shares @ _value_at(values[left], at) - course.seconds_price(left) * SECONDS_WRONG

    best = np.zeros(shares.shape[:-1])
    for gap in (gap for gap in GAPS if gap < course.sessions):
        best = np.maximum(best, started(course.sessions - gap))
    return (started(course.sessions) - best) / SECONDS_WRONG
