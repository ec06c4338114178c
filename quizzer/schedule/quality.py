"""How well an entry was remembered, 0 to 5, from the engine's mark and the trainee's own confidence."""

from __future__ import annotations

from enum import StrEnum
from typing import Final


class Confidence(StrEnum):
    """How sure the trainee was, asked before the mark is shown."""

    CERTAIN = "certain"
    FAIRLY_SURE = "fairly sure"
    GUESSING = "guessing"


QUALITIES: Final = range(6)
PASSED: Final = 3  # From here up the interval grows; below it the entry starts again.

# The more sure a wrong answer was, the lower it counts: what is believed and wrong is what hurts someone.
_RIGHT: Final[dict[Confidence | None, int]] = {
    Confidence.CERTAIN: 5,
    Confidence.FAIRLY_SURE: 4,
    Confidence.GUESSING: 2,
    None: 4,
}
_WRONG: Final[dict[Confidence | None, int]] = {
    Confidence.GUESSING: 2,
    Confidence.FAIRLY_SURE: 1,
    Confidence.CERTAIN: 0,
    None: 2,
}
_ROUNDED: Final = 3


def quality(right: bool, confidence: Confidence | None, *, rounded: bool = False) -> int:
    """The quality of one answer, 0 to 5, on the scale of `next_memory`.

    `rounded` marks a typed answer whose method was right and whose last digit was not: always 3, however
    sure the trainee was, because nobody guesses a number to within its rounding. Without a confidence a right
    answer counts as fairly sure and a wrong one as a guess. The mapping is a choice of ours; no publication
    gives it.

    >>> quality(True, Confidence.CERTAIN), quality(True, Confidence.GUESSING)
    (5, 2)
    >>> quality(False, Confidence.CERTAIN)
    0
    """
    if rounded:
        return _ROUNDED
    return (_RIGHT if right else _WRONG)[confidence]
