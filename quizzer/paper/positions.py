"""Where the keys stand in a form: as the seeds fall, drawn again only when the tails of chance are reached.

Forcing every letter to come up equally often would be a pattern of its own; a sheet that chance would give once in a
hundred is drawn again, no more. The limits of a count are those of the binomial at 1 %, both sides together.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import comb, fsum

TAIL = 0.005
LONGEST_RUN = 6


def acceptable(keys: Sequence[str], labels: str = "ABCD") -> bool:
    """Whether counts and runs of the keys are what chance gives nearly always."""
    low, high = limits(len(keys), len(labels))
    counts = Counter(keys)
    return all(low <= counts[label] <= high for label in labels) and longest_run(keys) <= LONGEST_RUN


def limits(questions: int, options: int) -> tuple[int, int]:
    """The fewest and the most times that one letter may be the key.

    >>> limits(60, 4)
    (7, 24)
    """
    share = 1 / options
    chances = [comb(questions, n) * share**n * (1 - share) ** (questions - n) for n in range(questions + 1)]
    low = next(n for n in range(questions + 1) if fsum(chances[: n + 1]) > TAIL)
    high = next(n for n in range(questions, -1, -1) if fsum(chances[n:]) > TAIL)
    return low, high


def longest_run(keys: Sequence[str]) -> int:
    """The most equal keys in a row.

    >>> longest_run("ABBBA")
    3
    """
    longest = run = 0
    last = ""
    for key in keys:
        run = run + 1 if key == last else 1
        longest, last = max(longest, run), key
    return longest
