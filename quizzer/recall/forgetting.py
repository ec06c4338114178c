"""Two models of forgetting, as bare arithmetic: how likely an entry is recalled, and what an answer changes.

In the first (half-lives) a memory halves in h days, and h grows when a recall succeeds late: Ye, Su and Cao (2022),
constants from memory. In the second (traces) every exposure leaves a trace that decays on its own, faster when it
was laid while the memory was still strong: Pavlik and Anderson (2005), constants from memory.

Only + - * / ** and abs are used, so that the same functions take floats and whole arrays.
"""

from __future__ import annotations

from math import exp, log2
from typing import Any, Final, TypeAlias

Reals: TypeAlias = Any  # a float, or an array of them

DAY: Final = 2160.0  # seconds of model time in a day: a fortieth of 86,400, as little goes on between sessions
FIRST_DECAY: Final = 0.177
_DECAY_SCALE: Final = 0.217
_THRESHOLD: Final = exp(-0.704 / 0.255)  # of recall, with its noise
_NOISE: Final = 0.255
_GROWTH: Final = exp(3.81)
_LOSS: Final = exp(-0.041)
_MOST_RECALL: Final = 0.9999
_LEAST_RECALL: Final = 1e-9


def first_half_life(difficulty: float) -> float:
    """Days in which a memory halves after the first exposure, for a difficulty of 1 to 10.

    >>> round(first_half_life(6), 4)
    1.4748
    """
    return -1 / log2(max(0.925 - 0.05 * difficulty, 0.025))


def recall_by_half_life(days: Reals, half_life: Reals) -> Reals:
    """The chance of recall so many days after the last answer."""
    return _power(2.0, -days / half_life)


def passed(half_life: Reals, difficulty: Reals, recall: Reals) -> Reals:
    """The half-life after a right answer, given when recall stood at `recall`.

    >>> round(passed(1.4748, 6, 0.625), 3)
    10.877
    """
    growth = _GROWTH * _power(difficulty, -0.534) * _power(half_life, -0.127) * _power(1 - recall, 0.97)
    return half_life * (1 + growth)


def failed(half_life: Reals, difficulty: Reals, recall: Reals) -> Reals:
    """The half-life after a wrong answer; never longer than before it.

    >>> round(failed(1.4748, 6, 0.625), 2)
    1.29
    """
    rest = 1 - recall
    rest = (rest + (1 - _MOST_RECALL) + abs(rest - (1 - _MOST_RECALL))) / 2
    after = _LOSS * _power(difficulty, -0.041) * _power(half_life, 0.377) * _power(rest, -0.227)
    return (after + half_life - abs(after - half_life)) / 2


def truly_recalled(recall: Reals, guess: Reals) -> Reals:
    """The chance that a right answer was recalled and not guessed, where guessing works so often.

    >>> truly_recalled(0.5, 0.0), round(truly_recalled(0.5, 0.25), 6)
    (1.0, 0.8)
    """
    return (recall + _LEAST_RECALL) / (recall + _LEAST_RECALL + (1 - recall) * guess)


def passed_perhaps(half_life: Reals, difficulty: Reals, recall: Reals, guess: Reals) -> Reals:
    """The half-life after a right answer that may have been a guess: between `passed` and `failed`."""
    share = truly_recalled(recall, guess)
    up, down = passed(half_life, difficulty, recall), failed(half_life, difficulty, recall)
    return _power(up, share) * _power(down, 1 - share)


def trace(days: Reals, decay: Reals) -> Reals:
    """What is left of one trace after so many days; the strength of an entry is e**ability times their sum."""
    return _power(days * DAY, -decay)


def recall_by_strength(strength: Reals) -> Reals:
    """The chance of recall at a strength over 0.

    >>> round(recall_by_strength(exp(0.65) * trace(1, FIRST_DECAY)), 4)
    0.4951
    """
    return 1 / (1 + _THRESHOLD * _power(strength, -1 / _NOISE))


def decay_at(strength: Reals) -> Reals:
    """How fast a trace decays that is laid while the entry stands at `strength`.

    >>> round(decay_at(exp(0.65) * trace(1, FIRST_DECAY)), 4)
    0.2838
    """
    return FIRST_DECAY + _DECAY_SCALE * strength


def _power(base: Reals, exponent: Reals) -> Reals:
    return base**exponent
