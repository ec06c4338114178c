"""Parallel forms: a first set by a linear solver, then swaps until the forms' expected scores agree.

The solver meets every count of the blueprint, uses no question twice and keeps enemies apart, or proves that the bank
cannot. A family is as many questions as it has cases, two of them in a form at the most. Swaps keep all of that and
even out the difficulty, and how much there is to read.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import fsum
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.errors import Refused
from quizzer.paper.curves import chances, gap
from quizzer.paper.enemies import limits_of, sets_of
from quizzer.paper.pool import Candidate
from quizzer.paper.reading_load import EVEN, uneven
from quizzer.paper.solving import first_forms, short_section

Dice = Callable[[], float]
CLOSE = 0.03  # marks; nearer than this nobody could tell forms apart
SWAPS = 40_000
WARM = 0.1
# What a share of the words apart counts in the swaps, in marks: forms at the limit of either are as far from even.
READING = CLOSE / EVEN
_Alike = tuple[bool, bool, bool, bool, bool, str, frozenset[str]]


class Slot(NamedTuple):
    """A candidate in a form: its place in the pool and the section it stands in."""

    candidate: int
    section: int


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
    before = gap([_curve(form, curves) for form in start])
    words = [fsum(pool[place.candidate].load for place in form) for form in start]
    mean = fsum(words) / len(words) or 1.0
    weighed = [(*curve, READING * one.load / mean) for curve, one in zip(curves, pool, strict=True)]
    best = _Swapping(blueprint, start, pool, weighed, sets_of(pairs), dice).run()
    loads = [fsum(pool[place.candidate].load for place in form) for form in best]
    return Assembly(
        tuple(tuple(form) for form in best), before, gap([_curve(form, curves) for form in best]), uneven(loads)
    )


def _curve(form: Sequence[Slot], curves: Sequence[tuple[float, ...]]) -> list[float]:
    return [fsum(column) for column in zip(*(curves[place.candidate] for place in form), strict=True)]


class _Swapping:
    """The swaps: each is kept when it brings the forms' curves nearer to their common mean.

    The last place of a curve is no chance but what there is to read, weighed as `READING` says.
    """

    def __init__(
        self,
        blueprint: Blueprint,
        forms: list[list[Slot]],
        pool: Sequence[Candidate],
        curves: Sequence[tuple[float, ...]],
        foes: dict[int, set[int]],
        dice: Dice,
    ) -> None:
        self.plans, self.forms, self.pool, self.curves = blueprint.sections, forms, pool, curves
        self.foes, self.dice, self.warmth = foes, dice, WARM
        self.limits = limits_of(pool)
        self.totals = [_curve(form, curves) for form in forms]
        self.inside = [{place.candidate for place in form} for form in forms]
        taken = set().union(*self.inside)
        self.free: dict[_Alike, list[int]] = {}
        for at in range(len(pool)):
            if at not in taken:
                self.free.setdefault(self.kind(at), []).append(at)

    def kind(self, at: int) -> _Alike:
        """What two candidates must share to stand in for each other: all that a blueprint counts but the level."""
        one = self.pool[at]
        is_case, folder = bool(one.case), one.id.rpartition("/")[0]
        return one.calculation, is_case, one.pictured, one.safety_critical, one.used, folder, one.exercises

    def run(self) -> list[list[Slot]]:
        """Swap until the forms agree closely, or the turns are used up; the best forms met on the way.

        A little warmth, cooling down, lets a swap make things worse for a while: with a few levels of difficulty
        alone, two swaps may be needed where neither helps by itself.
        """
        best, best_gap = self.snapshot(), gap(self.totals)
        for turn in range(SWAPS):
            self.warmth = WARM * (1 - turn / SWAPS)
            if turn % 20 == 0 and (now := gap(self.totals)) < best_gap:
                best, best_gap = self.snapshot(), now
            if best_gap <= CLOSE:
                break
            form = int(self.dice() * len(self.forms))
            place = int(self.dice() * len(self.forms[form]))
            if self.dice() < 0.5 and len(self.forms) > 1:
                self.exchange(form, place)
            else:
                self.replace(form, place)
        return best

    def snapshot(self) -> list[list[Slot]]:
        """The forms as they are."""
        return [list(form) for form in self.forms]

    def exchange(self, form: int, place: int) -> None:
        """Try to exchange a place with one of the same section and kind in another form."""
        mine = self.forms[form][place]
        other = (form + 1 + int(self.dice() * (len(self.forms) - 1))) % len(self.forms)
        alike = [
            at
            for at, theirs in enumerate(self.forms[other])
            if theirs.section == mine.section
            and _counted(self.pool[theirs.candidate]) == _counted(self.pool[mine.candidate])
        ]
        if not alike:
            return
        at = alike[int(self.dice() * len(alike))]
        theirs = self.forms[other][at]
        if not self.fits(form, theirs.candidate, mine) or not self.fits(other, mine.candidate, theirs):
            return
        changed = {
            form: self.moved(form, mine.candidate, theirs.candidate),
            other: self.moved(other, theirs.candidate, mine.candidate),
        }
        if self.better(changed):
            self.put(form, place, theirs.candidate)
            self.put(other, at, mine.candidate)

    def replace(self, form: int, place: int) -> None:
        """Try to put a free candidate of the same kind in a place."""
        mine = self.forms[form][place]
        waiting = self.free.get(self.kind(mine.candidate), [])
        if not waiting:
            return
        at = int(self.dice() * len(waiting))
        if self.fits(form, waiting[at], mine) and self.better({form: self.moved(form, mine.candidate, waiting[at])}):
            newcomer, waiting[at] = waiting[at], mine.candidate
            self.put(form, place, newcomer)

    def fits(self, form: int, newcomer: int, leaver: Slot) -> bool:
        """Whether the newcomer meets no enemy in the form, and the section keeps its fewest of the leaver's level."""
        others = self.inside[form] - {leaver.candidate}
        if self.foes.get(newcomer, set()) & others:
            return False
        if any(len(limit.places & others) >= limit.most for limit in self.limits.get(newcomer, ())):
            return False
        level = self.pool[leaver.candidate].level
        fewest = self.plans[leaver.section].levels.get(level, 0)
        if not fewest or self.pool[newcomer].level == level:
            return True
        here = [place for place in self.forms[form] if place.section == leaver.section]
        return sum(self.pool[place.candidate].level == level for place in here) > fewest

    def moved(self, form: int, leaver: int, newcomer: int) -> list[float]:
        """The form's curve after a swap."""
        gone, come = self.curves[leaver], self.curves[newcomer]
        return [total - out + new for total, out, new in zip(self.totals[form], gone, come, strict=True)]

    def better(self, changed: dict[int, list[float]]) -> bool:
        """Whether the curves would lie nearer together, or hardly further apart; if so they are taken over."""
        after = [changed.get(at, total) for at, total in enumerate(self.totals)]
        if _scatter(after) - _scatter(self.totals) >= self.warmth * self.dice():
            return False
        self.totals = after
        return True

    def put(self, form: int, place: int, candidate: int) -> None:
        """Let a candidate take a place."""
        old = self.forms[form][place]
        self.inside[form] = (self.inside[form] - {old.candidate}) | {candidate}
        self.forms[form][place] = Slot(candidate, old.section)


def _counted(one: Candidate) -> tuple[bool, bool]:
    """What every form has as often as the others."""
    return one.calculation, one.pictured


def _scatter(curves: Sequence[Sequence[float]]) -> float:
    """Sum of squared distances from the mean curve."""
    return sum(
        sum((value - sum(column) / len(column)) ** 2 for value in column) for column in zip(*curves, strict=True)
    )
