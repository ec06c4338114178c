"""How much there is to read in a question, in words: what parallel forms have to be even in besides difficulty.

Two forms of the same difficulty are not the same paper when one of them takes five minutes longer to read.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum
from typing import Final

from quizzer.bank.head import OPTIONS

# A figure and its unit: what an option of a calculation takes, whose figures are not drawn yet.
FIGURE_WORDS: Final = 2.0
# Forms may differ in words by this share of the mean.
EVEN: Final = 0.05


def words_read(stem: str, options: Sequence[str]) -> float:
    """The words of a question with `OPTIONS` of these options, which stand in for figures when there are none.

    >>> words_read("Which is it?", ["one", "the other"])
    9.0
    """
    each = fsum(map(words_of, options)) / len(options) if options else FIGURE_WORDS
    return words_of(stem) + OPTIONS * each


def uneven(loads: Sequence[float]) -> float:
    """How far apart forms are in words, as a share of their mean.

    >>> uneven([950, 1050])
    0.1
    """
    return (max(loads) - min(loads)) / (fsum(loads) / len(loads)) if any(loads) else 0.0


def words_of(text: str) -> int:
    """How many words a text has, a figure being one of them."""
    return len(text.split())
