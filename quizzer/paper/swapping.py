"""Swaps that bring parallel forms nearer together: by lot at first, then of all there are the one that does most.

Each keeps what the blueprint counts, uses no question twice and keeps enemies apart.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from math import fsum
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.paper.curves import gap
from quizzer.paper.enemies import limits_of
from quizzer.paper.polishing import Move, Moves
from quizzer.paper.pool import Candidate

Dice = Callable[[], float]
CLOSE = 0.03  # marks; nearer than this nobody could tell forms apart
SWAPS = 3_000
WARM = 0.1
BEST_SWAPS = 300
LOOKED_AT = 60  # of the best swaps, most of which the counts and enemies allow
STIRS = 6  # swaps by lot, where none of all helps
_NOISE = 1e-9
Totals = list[list[float]]
_Alike = tuple[bool, bool, bool, bool, bool, str, frozenset[str]]


class Slot(NamedTuple):
    """A candidate in a form: its place in the pool and the section it stands in."""

    candidate: int
    section: int


def curve_of(form: Sequence[Slot], curves: Sequence[tuple[float, ...]]) -> list[float]:
    """The sums of a form's curves."""
    return [fsum(column) for column in zip(*(curves[place.candidate] for place in form), strict=True)]


class Swapping:
    """Forms, and swaps that bring their curves nearer to the common mean; a curve is what forms are to be even in."""

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
        self.totals = [curve_of(form, curves) for form in forms]
        self.inside = [{place.candidate for place in form} for form in forms]
        taken = set().union(*self.inside)
        self.free: dict[_Alike, list[int]] = {}
        for at in range(len(pool)):
            if at not in taken:
                self.free.setdefault(self.kind(at), []).append(at)
        self.best, self.best_gap, self.best_scatter = self.snapshot(), gap(self.totals), _scatter(self.totals)

    def kind(self, at: int) -> _Alike:
        """What two candidates must share to stand in for each other: all that a blueprint counts but the level."""
        one = self.pool[at]
        is_case, folder = bool(one.case), one.id.rpartition("/")[0]
        return one.calculation, is_case, one.pictured, one.safety_critical, one.used, folder, one.exercises

    def run(self) -> list[list[Slot]]:
        """The best forms met on the way, until they agree closely or the turns are used up."""
        self.by_lot()
        if self.best_gap > CLOSE:
            self.by_effect()
        return self.best

    def by_lot(self) -> None:
        """Swaps by lot, kept when they help.

        A little warmth, cooling down, lets a swap make things worse for a while: with a few levels of difficulty
        alone, two swaps may be needed where neither helps by itself.
        """
        for turn in range(SWAPS):
            self.warmth = WARM * (1 - turn / SWAPS)
            if turn % 20 == 0:
                self.keep_best()
            if self.best_gap <= CLOSE:
                break
            self.any_swap(self.better)

    def by_effect(self) -> None:
        """Of all swaps the one that helps most; where none does, some by lot, from which it goes on."""
        places = [(form, at) for form, mine in enumerate(self.forms) for at in range(len(mine))]
        spare = [(waiting, at) for waiting in self.free.values() for at in range(len(waiting))]
        kinds = _codes(map(self.kind, range(len(self.pool))))
        groups = _codes(self.group(self.forms[form][at]) for form, at in places)
        moves = Moves(self.curves, [form for form, _ in places], groups)
        for _ in range(BEST_SWAPS):
            if self.best_gap <= CLOSE:
                break
            placed = [self.forms[form][at].candidate for form, at in places]
            free = [waiting[at] for waiting, at in spare]
            alike = [kinds[at] for at in placed], [kinds[at] for at in free]
            helpful = moves.best(placed, free, alike, self.totals, LOOKED_AT)
            if not any(self.made(move, places, spare) for move in helpful):
                for _ in range(STIRS):
                    self.any_swap(_gladly)
            self.keep_best()

    def made(self, move: Move, places: Sequence[tuple[int, int]], spare: Sequence[tuple[list[int], int]]) -> bool:
        """Make a swap, whatever comes of it; False where counts or enemies forbid it."""
        if move.free:
            return self.replace(*places[move.place], *spare[move.other], _gladly)
        return self.exchange(*places[move.place], *places[move.other], _gladly)

    def keep_best(self) -> None:
        """Note the forms as they are, if they are the best so far; of two as far apart, those that are so in less."""
        now = gap(self.totals), _scatter(self.totals)
        if now[0] < self.best_gap - _NOISE or (now[0] < self.best_gap + _NOISE and now[1] < self.best_scatter):
            self.best, (self.best_gap, self.best_scatter) = self.snapshot(), now

    def snapshot(self) -> list[list[Slot]]:
        """The forms as they are."""
        return [list(form) for form in self.forms]

    def group(self, place: Slot) -> tuple[int, bool, bool]:
        """What two places in different forms must share to change: their section, and what forms have equally often."""
        one = self.pool[place.candidate]
        return place.section, one.calculation, one.pictured

    def any_swap(self, wanted: Callable[[Totals], bool]) -> None:
        """Try a swap by lot, kept where it is wanted."""
        form = int(self.dice() * len(self.forms))
        place = int(self.dice() * len(self.forms[form]))
        if self.dice() < 0.5 and len(self.forms) > 1:
            self.exchange_by_lot(form, place, wanted)
        else:
            self.replace_by_lot(form, place, wanted)

    def exchange_by_lot(self, form: int, place: int, wanted: Callable[[Totals], bool]) -> None:
        """Try to exchange a place with one of the same section and kind in another form."""
        mine = self.group(self.forms[form][place])
        other = (form + 1 + int(self.dice() * (len(self.forms) - 1))) % len(self.forms)
        alike = [at for at, theirs in enumerate(self.forms[other]) if self.group(theirs) == mine]
        if alike:
            self.exchange(form, place, other, alike[int(self.dice() * len(alike))], wanted)

    def replace_by_lot(self, form: int, place: int, wanted: Callable[[Totals], bool]) -> None:
        """Try to put a free candidate of the same kind in a place."""
        waiting = self.free.get(self.kind(self.forms[form][place].candidate), [])
        if waiting:
            self.replace(form, place, waiting, int(self.dice() * len(waiting)), wanted)

    def exchange(self, form: int, place: int, other: int, at: int, wanted: Callable[[Totals], bool]) -> bool:
        """Whether two places of different forms changed: where both fit, and what comes of it is wanted."""
        mine, theirs = self.forms[form][place], self.forms[other][at]
        if not self.fits(form, theirs.candidate, mine) or not self.fits(other, mine.candidate, theirs):
            return False
        after = list(self.totals)
        after[form] = self.moved(form, mine.candidate, theirs.candidate)
        after[other] = self.moved(other, theirs.candidate, mine.candidate)
        if not wanted(after):
            return False
        self.totals = after
        self.put(form, place, theirs.candidate)
        self.put(other, at, mine.candidate)
        return True

    def replace(self, form: int, place: int, waiting: list[int], at: int, wanted: Callable[[Totals], bool]) -> bool:
        """Whether a candidate that waited took a place: where it fits, and what comes of it is wanted."""
        mine, newcomer = self.forms[form][place], waiting[at]
        after = list(self.totals)
        after[form] = self.moved(form, mine.candidate, newcomer)
        if not self.fits(form, newcomer, mine) or not wanted(after):
            return False
        self.totals, waiting[at] = after, mine.candidate
        self.put(form, place, newcomer)
        return True

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

    def better(self, after: Totals) -> bool:
        """Whether the curves would lie nearer together, or hardly further apart."""
        return _scatter(after) - _scatter(self.totals) < self.warmth * self.dice()

    def put(self, form: int, place: int, candidate: int) -> None:
        """Let a candidate take a place."""
        old = self.forms[form][place]
        self.inside[form] = (self.inside[form] - {old.candidate}) | {candidate}
        self.forms[form][place] = Slot(candidate, old.section)


def _gladly(_: Totals) -> bool:
    return True


def _codes(values: Iterable[Hashable]) -> list[int]:
    """A number for each, the same for equal ones."""
    known: dict[Hashable, int] = {}
    return [known.setdefault(each, len(known)) for each in values]


def _scatter(curves: Sequence[Sequence[float]]) -> float:
    """Sum of squared distances from the mean curve."""
    return sum(
        sum((value - sum(column) / len(column)) ** 2 for value in column) for column in zip(*curves, strict=True)
    )
