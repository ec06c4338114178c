"""Recall gained a second where memories halve, from a table of what an entry is worth so many sessions ahead."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log
from typing import Final, NamedTuple

from quizzer.schedule.forgetting import failed, first_half_life, passed, recall_by_half_life
from quizzer.schedule.gain import SECONDS_WRONG, Course, cost

GAPS: Final = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 17, 20, 24, 28, 33)
HALF_LIFE_STEP: Final = 0.4  # of the logarithm
HALF_LIVES: Final = tuple(0.3 * exp(step * HALF_LIFE_STEP) for step in range(24))
DIFFICULTIES: Final = (2.0, 4.0, 6.0, 8.0, 10.0)

_Rows = tuple[tuple[float, ...], ...]


def ahead(course: Course) -> tuple[_Rows, ...]:
    """The value of an entry just answered, by sessions left, half-life and difficulty.

    It is the recall on the exam day minus the price of later reviews, when each comes at its best session.
    """
    values: list[_Rows] = [tuple(tuple(1.0 for _ in DIFFICULTIES) for _ in HALF_LIVES)]
    moves = [[_moves(h, d, course) for d in DIFFICULTIES] for h in HALF_LIVES]
    for left in range(1, course.sessions + 1):
        values.append(tuple(
            tuple(_best(values, moves[i][j], recall_by_half_life(left * course.step * course.pace, h), left, course)
                  for j in range(len(DIFFICULTIES)))
            for i, h in enumerate(HALF_LIVES)
        ))  # fmt: skip
    return tuple(values)


class Spot(NamedTuple):
    """A place between four points of the table: the lower row and column, and how far towards the next."""

    row: int
    column: int
    down: float
    across: float


def spot(half_life: float, difficulty: float) -> Spot:
    """Where a half-life and a difficulty lie in the table."""
    x = min(max(log(half_life / HALF_LIVES[0]) / HALF_LIFE_STEP, 0.0), len(HALF_LIVES) - 1.001)
    y = min(max((difficulty - DIFFICULTIES[0]) / 2, 0.0), len(DIFFICULTIES) - 1.001)
    return Spot(int(x), int(y), x - int(x), y - int(y))


def value_at(rows: _Rows, at: Spot) -> float:
    """The value of a table's rows at a spot, straight lines between its points."""
    upper, lower = rows[at.row], rows[at.row + 1]
    left = upper[at.column] * (1 - at.down) + lower[at.column] * at.down
    right = upper[at.column + 1] * (1 - at.down) + lower[at.column + 1] * at.down
    return left * (1 - at.across) + right * at.across


_Move = tuple[int, float, Spot, Spot]


def _moves(half_life: float, difficulty: float, course: Course) -> list[_Move]:
    """For each gap: the recall then, and where a right and a wrong answer lead."""
    return [_move(gap, gap, half_life, difficulty, course) for gap in GAPS if gap < course.sessions]


def _move(gap: int, days: float, half_life: float, difficulty: float, course: Course) -> _Move:
    recall = recall_by_half_life(days * course.step * course.pace, half_life)
    return (
        gap,
        recall,
        spot(passed(half_life, difficulty, recall), difficulty),
        spot(failed(half_life, difficulty, recall), difficulty),
    )


def _best(values: Sequence[_Rows], moves: list[_Move], stop: float, left: int, course: Course) -> float:
    return max([stop, *(_worth(values, move, left, course) for move in moves if move[0] < left)])


def _worth(values: Sequence[_Rows], move: _Move, left: int, course: Course) -> float:
    gap, recall, up, down = move
    rows = values[left - gap]
    paid = course.seconds_price(left - gap) * cost(recall)
    return recall * value_at(rows, up) + (1 - recall) * value_at(rows, down) - paid


def gain_by_half_life(
    values: Sequence[_Rows], half_life: float, difficulty: float, elapsed: float, course: Course
) -> float:
    """Recall gained a second by a review today; `elapsed` days since the last answer. May be negative."""
    left = course.sessions
    wait = elapsed / course.step
    later = [_move(gap, wait + gap, half_life, difficulty, course) for gap in (0, *GAPS) if gap < left]
    stop = recall_by_half_life((elapsed + left * course.step) * course.pace, half_life)
    now = _worth(values, later[0], left, course)
    return (now - _best(values, later[1:], stop, left, course)) / cost(later[0][1])


def gain_of_new_by_half_life(values: Sequence[_Rows], shares: Sequence[tuple[float, float]], course: Course) -> float:
    """The same for an entry never met, whose difficulty is known only by (difficulty, share) pairs."""
    spots = [(share, spot(first_half_life(difficulty), difficulty)) for difficulty, share in shares]

    def started(left: int) -> float:
        reached = sum(share * value_at(values[left], at) for share, at in spots)
        return reached - course.seconds_price(left) * SECONDS_WRONG

    later = [started(course.sessions - gap) for gap in GAPS if gap < course.sessions]
    return (started(course.sessions) - max([0.0, *later])) / SECONDS_WRONG
