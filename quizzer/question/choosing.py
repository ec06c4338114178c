"""Which wrong values stand beside the key: where it shall stand, with its verdict twice, and told by nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from quizzer.bank.head import OPTIONS
from quizzer.question.drawing import Dice, pick
from quizzer.question.multiples import picked, told
from quizzer.question.options import Worked, Wronged, wronged_twice
from quizzer.question.question import LABELS, Option

LOOKED_AT = 8  # choices of wrong options, of one kind

Set = tuple[Wronged, ...]


def choices(
    worked: Worked, wrong: Sequence[Wronged], dice: Dice, places: Iterable[int], *, even: bool = False
) -> tuple[Option, ...]:
    """The key and three wrong options by size, the key at the first of `places` that can be had; () when none can.

    `even` asks that, where the template gives a verdict, two options have the key's and two have not.
    """
    pool = _sane(wrong)
    wider = [*pool, *wronged_twice(worked, pool)]
    for place in places:
        taken = _taken(worked, wider, place, dice, even=even and bool(worked.template.verdict))
        if taken:
            return _listed(worked, taken)
    return ()


def reachable(worked: Worked, wrong: Sequence[Wronged], *, even: bool) -> frozenset[int]:
    """The places at which the key can stand beside three of these wrong options; `even` as for `choices`."""
    found: set[int] = set()
    pool = _sane(wrong)
    for wider in ((), wronged_twice(worked, pool)):
        for place in set(range(OPTIONS)) - found:
            sets = _sets([*pool, *wider], worked.key, place)
            if any(_evened(worked, sets, even=even and bool(worked.template.verdict))):
                found.add(place)
        if len(found) == OPTIONS:
            break
    return frozenset(found)


def _listed(worked: Worked, taken: Sequence[Wronged]) -> tuple[Option, ...]:
    key = Option("", worked.text, worked.key, None, "")
    options = [key, *(Option("", one.text, one.value, one.id, one.why) for one in taken)]
    ordered = sorted(options, key=lambda option: option.value or 0.0)
    return tuple(
        Option(LABELS[at], option.text, option.value, option.slip, option.why) for at, option in enumerate(ordered)
    )


def _sane(wrong: Sequence[Wronged]) -> list[Wronged]:
    """All that are not absurd, and one that is: one lost prefix a question is enough."""
    far = [one for one in wrong if one.far]
    return [one for one in wrong if not one.far] + far[:1]


def _taken(worked: Worked, pool: list[Wronged], below: int, dice: Dice, *, even: bool) -> Set:
    """Three of the pool, `below` of them less than the key; () where there are none.

    Three single mistakes would all follow from the key by one step, and from nothing else, so that it is told without
    the stem. Two mistakes and both of them together make a square with it, in which no corner is special. Where none
    can be had, another value is the centre three times in four, and in the fourth it may be the key.
    """
    centre = dice() < 1 / OPTIONS
    squares = list(_evened(worked, _squares(pool, worked.key, below), even=even))
    found = _hidden(worked, squares, dice, ())
    if found and max(_telling(worked, found)) <= 1 / OPTIONS:
        return found
    sets = list(_evened(worked, _sets(pool, worked.key, below), even=even))
    singles = [each for each in sets if all(len(one.slips) == 1 for one in each)]
    if centre and singles:
        return singles[pick(len(singles), dice)]
    return _hidden(worked, [each for each in sets if any(len(one.slips) == 1 for one in each)] or sets, dice, found)


def _hidden(worked: Worked, sets: list[Set], dice: Dice, found: Set) -> Set:
    """The set that tells the key least, of some by lot and the one found before."""
    least = _telling(worked, found) if found else (1.0, 1.0)
    for _ in range(min(len(sets), LOOKED_AT)):
        taken = sets.pop(pick(len(sets), dice))
        telling = _telling(worked, taken)
        if not found or sum(telling) < sum(least):
            found, least = taken, telling
        if max(least) <= 1 / OPTIONS:
            break
    return found


def _telling(worked: Worked, taken: Set) -> tuple[float, float]:
    """The chances that the key is picked for what follows from it: by one mistake each, and by the values alone."""
    mistakes = [frozenset[str](), *(frozenset(slip.id for slip in one.slips) for one in taken)]
    near = [sum(len(one ^ other) == 1 for other in mistakes) for one in mistakes]
    return picked(near), told(worked.key, [one.value for one in taken])


def _squares(pool: Sequence[Wronged], key: float, below: int) -> Iterator[Set]:
    """Two mistakes and both of them together, `below` of the three less than the key."""
    alone = {one.slips[0].id: one for one in pool if len(one.slips) == 1}
    for both in pool:
        square = (*(alone[slip.id] for slip in both.slips), both)
        if len(square) == OPTIONS - 1 and sum(one.value < key for one in square) == below:
            yield square


def _evened(worked: Worked, sets: Iterable[Set], *, even: bool) -> Iterable[Set]:
    """Those of the sets that have the key's verdict once; all of them where that is not asked."""
    if not even:
        return sets
    right = worked.outcome
    return (each for each in sets if [one.outcome for one in each].count(right) == 1)


def _sets(pool: list[Wronged], key: float, below: int) -> Iterator[Set]:
    less, more = ([one for one in pool if (one.value < key) is side] for side in (True, False))
    return (low + high for low in combinations(less, below) for high in combinations(more, OPTIONS - 1 - below))
