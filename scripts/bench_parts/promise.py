"""A promise about speed, and what measuring one needs."""

from __future__ import annotations

import time
from collections.abc import Callable
from statistics import median
from typing import NamedTuple


class Promise(NamedTuple):
    """What was measured, how many times as much as what it is compared with, and the most that may be."""

    name: str
    ratio: float
    compared: str
    limit: float

    @property
    def kept(self) -> bool:
        """Whether it is kept; a ratio that is no number is not."""
        return self.ratio <= self.limit


class Stopped(Exception):
    """What was to be measured did not do its work: `str()` says what came instead."""


def seconds(act: Callable[[], object], times: int = 1) -> float:
    """Seconds of so many runs."""
    start = time.perf_counter()
    for _ in range(times):
        act()
    return time.perf_counter() - start


def against(ours: Callable[[], float], theirs: Callable[[], float], rounds: int) -> float:
    """The ratio of two medians, each round taking both, so that a busy machine slows both alike."""
    pairs = [(ours(), theirs()) for _ in range(rounds)]
    return median(mine for mine, _ in pairs) / median(other for _, other in pairs)
