"""Counting the questions about circuits for real: how many differ, and how long they take to make."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from quizzer.bank.entries import Diagnose
from quizzer.bankfiles.shelf import Shelf
from quizzer.lint.diagnoses import canonical
from quizzer.question.making import make


@dataclass(frozen=True, slots=True)
class Counted:
    """An entry, how many of its questions were made and differ, and the seconds that each took."""

    id: str
    made: int
    different: int
    seconds: tuple[float, ...]


def counted(shelf: Shelf, seeds: int, clock: Callable[[], float]) -> Iterator[Counted]:
    """Every diagnose entry of the bank with its first `seeds` questions. Raises Refused where one cannot be made."""
    for path in shelf.files():
        for entry in shelf.load(path).entries:
            if isinstance(entry, Diagnose):
                yield _entry(entry, seeds, clock)


def _entry(entry: Diagnose, seeds: int, clock: Callable[[], float]) -> Counted:
    different: set[int] = set()
    seconds: list[float] = []
    for seed in range(seeds):
        start = clock()
        question = make(entry, seed)
        seconds.append(clock() - start)
        different.add(hash(canonical(question)))
    return Counted(entry.head.id, seeds, len(different), tuple(seconds))


def percentile(seconds: list[float], share: float) -> float:
    """The time within which this share of the questions was made.

    >>> percentile([3.0, 1.0, 2.0, 4.0], 0.5)
    2.0
    """
    return sorted(seconds)[max(0, -int(-share * len(seconds) // 1) - 1)]
