"""The order of questions inside their sections that leaves least white at the foot of printed pages.

A question is never parted, so that the next one may leave the rest of a page white. Which one comes next is free inside
a section: from the order that is given, two questions change places as long as that wastes less.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import fsum
from typing import Final, NamedTuple

Dice = Callable[[], float]
SWAPS: Final = 2500
# What a page may leave white at its foot; what is more counts in full, what is less hardly.
FAIR: Final = 0.20
_NONE_PARTED: Final[Mapping[tuple[int, int], tuple[float, ...]]] = {}


class Heights(NamedTuple):
    """How high things are in one look, in points.

    A page, the space between questions, by section each question and what stands above the first, and the end mark.
    `parted` has the pieces of those that fill more than a page, by section and place. Where the white is `shared`, what
    a page leaves is between its questions, and at its foot only under a single one.
    """

    page: float
    between: float
    questions: tuple[tuple[float, ...], ...]
    heads: tuple[float, ...]
    end: float = 0.0
    shared: bool = False
    parted: Mapping[tuple[int, int], tuple[float, ...]] = _NONE_PARTED


def white(heights: Heights, orders: Sequence[Sequence[int]]) -> list[float]:
    """The share of each page that is white at its foot, sections in turn, their questions in these orders.

    What is higher than a page goes on overleaf, from one of its pieces to the next.

    >>> white(Heights(100, 10, ((60, 30, 50),), (0,)), [[0, 1, 2]])
    [0.0, 0.5]
    """
    pages: list[float] = []
    used, single = 0.0, True
    for at, order in enumerate(orders):
        for place, one in enumerate(order):
            start = used + heights.between if used else 0.0
            above = heights.heads[at] if place == 0 else 0.0
            pieces = heights.parted.get((at, one)) or (heights.questions[at][one],)
            if above and above + pieces[0] > heights.page:  # then what is above stands alone
                pieces, above = (above, *pieces), 0.0
            for piece in pieces:
                if start + above + piece > heights.page and start:
                    pages.append(1 - used / heights.page if single or not heights.shared else 0.0)
                    start = 0.0
                used, single = start + above + piece, start == 0
                while used > heights.page:
                    pages.append(0.0)
                    used -= heights.page
                start, above = used, 0.0
    if used + heights.end > heights.page:  # the end mark takes the last question with it, but nothing of what is parted
        at, one = len(orders) - 1, orders[-1][-1]
        taken = 0.0 if (at, one) in heights.parted else heights.questions[at][one]
        left = used - taken - heights.between if taken else used
        return [*pages, 1 - left / heights.page, 1 - (taken + heights.end) / heights.page]
    return [*pages, 1 - (used + heights.end) / heights.page]


def packed_orders(
    looks: Sequence[Heights], fits: Callable[[Sequence[Sequence[int]]], bool], dice: Dice
) -> list[list[int]]:
    """For each section the order of its questions, as places in the order given, for all looks together.

    `fits` says whether an order may stand, apart from what it wastes.
    """
    orders = [list(range(len(each))) for each in looks[0].questions]
    free = [at for at, order in enumerate(orders) if len(order) > 1]
    best = _waste(looks, orders)
    for _ in range(SWAPS if free else 0):
        order = orders[free[int(dice() * len(free))]]
        one, other = int(dice() * len(order)), int(dice() * len(order))
        order[one], order[other] = order[other], order[one]
        now = _waste(looks, orders)
        if now <= best and fits(orders):
            best = now
        else:
            order[one], order[other] = order[other], order[one]
    return orders


def _waste(looks: Sequence[Heights], orders: Sequence[Sequence[int]]) -> float:
    """What all looks leave white; pages beyond what is fair count most."""
    return fsum(_look_waste(white(each, orders)) for each in looks)


def _look_waste(pages: Sequence[float]) -> float:
    return fsum(pages) / len(pages) + fsum(max(0.0, each - FAIR) for each in pages) / len(pages)
