"""Parallel forms: a first set by a linear solver, then swaps until the forms' expected scores agree.

The solver meets every count of the blueprint, uses no question twice and keeps enemies apart, or proves that the bank
cannot. A family is as many questions as it has cases, two of them in a form at the most. Swaps keep all of that and
even out the difficulty, and how much there is to read: words, and lines on paper.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import fsum
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.errors import Refused
from quizzer.paper.curves import chances, gap
from quizzer.paper.enemies import sets_of
from quizzer.paper.pool import Candidate
from quizzer.paper.reading_load import EVEN, uneven
from quizzer.paper.solving import first_forms, short_section
from quizzer.paper.swapping import CLOSE, Slot, Swapping, curve_of

Dice = Callable[[], float]
# What a share of the words or lines apart counts in the swaps, in marks: at the limit of each, forms are as far from
# even.
READING = CLOSE / EVEN


class Assembly(NamedTuple):
    """The forms, and how far apart their expected scores are at the worst ability, before and after the swaps.

    `uneven` is how far apart they are in words, as a share of their mean.
    """

    forms: tuple[tuple[Slot, ...], ...]
    gap_before: float
    gap: float
    uneven: float = 0.0


def assemble(
    blueprint: Blueprint, pool: Sequence[Candidate], pairs: frozenset[tuple[int, int]], forms: int, dice: Dice
) -> Assembly:
    """So many parallel forms. Raises Refused, naming the section that is short, when the bank cannot give them."""
    found = first_forms(blueprint, pool, pairs, forms, dice)
    if found is None:
        raise Refused(
            short_section(blueprint, pool, pairs, forms), mend="ask for fewer forms or questions, or add entries"
        )
    start = [[Slot(*place) for place in form] for form in found]
    curves = [chances(one.facility) for one in pool]
    before = gap([curve_of(form, curves) for form in start])
    words, lines = _share([one.load for one in pool], start), _share([one.lines for one in pool], start)
    weighed = [(*curve, words[at], lines[at]) for at, curve in enumerate(curves)]
    best = Swapping(blueprint, start, pool, weighed, sets_of(pairs), dice).run()
    loads = [fsum(pool[place.candidate].load for place in form) for form in best]
    return Assembly(
        tuple(tuple(form) for form in best), before, gap([curve_of(form, curves) for form in best]), uneven(loads)
    )


def _share(loads: Sequence[float], forms: Sequence[Sequence[Slot]]) -> list[float]:
    """What each load counts in the swaps: its share of what a form has in the mean, weighed as `READING` says."""
    mean = fsum(loads[place.candidate] for form in forms for place in form) / len(forms) or 1.0
    return [READING * load / mean for load in loads]
