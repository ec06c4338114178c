"""What a review today is worth on the exam day, against the same review later or never: recall gained per second.

Every second has a price, dearer towards the exam because everybody's best last review lies there. A review's worth is
the value of going on well after it, minus that of the best way to go on without it today; both pay the price of all
their later reviews. The shape of the price, c r**-0.28 at r days before the exam, was read off the dual prices of two
linear programmes of ours (one for each model of forgetting), which agreed in it; c follows from the time there is.
"""

from __future__ import annotations

from itertools import pairwise
from math import log
from typing import Any, Final

from quizzer.values import NamedTuple

SECONDS_RIGHT: Final = 40.0
SECONDS_WRONG: Final = 75.0  # and for a new entry: the explanation is read
# The price of a second at one day before the exam, by seconds for each entry and day: where it is not known which
# entries are hard, and where others' answers have told (an easy one is then worth its wait for a late start).
PRICES: Final = ((4.0, 0.0067), (8.0, 0.001), (16.0, 0.0003))
PRICES_KNOWN: Final = ((2.0, 0.0075), (4.0, 0.0067), (8.0, 0.0015), (16.0, 0.0003))
PRICE_FALL: Final = 0.28


class Course(NamedTuple):
    """The time there is: sessions left with today's, and the days from one to the next.

    `pace` is the learner's own (1 as published, 2 forgets twice as fast), `price` that of a second at one day
    before the exam.
    """

    sessions: int
    step: float
    pace: float
    price: float

    def seconds_price(self, sessions: int) -> float:
        """Recall that a second must bring, so many sessions before the exam."""
        return float(self.price * (sessions * self.step) ** -PRICE_FALL)


def price_of(seconds: float, *, known: bool = False) -> float:
    """The price at one day before the exam for so many seconds an entry and day, between the rows of its table."""
    rows = PRICES_KNOWN if known else PRICES
    if seconds <= rows[0][0]:
        return rows[0][1]
    for (low, dear), (high, cheap) in pairwise(rows):
        if seconds <= high:
            return float(dear * (cheap / dear) ** (log(seconds / low) / log(high / low)))
    return rows[-1][1]


def cost(recall: Any) -> Any:
    """The expected seconds of a review; for arrays too."""
    return SECONDS_WRONG - (SECONDS_WRONG - SECONDS_RIGHT) * recall
