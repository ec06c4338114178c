"""The effect of every swap, worked out at once, is what comes of it."""

from itertools import combinations
from random import Random

import pytest

from quizzer.paper.polishing import Moves


def scatter(totals):
    """Sum of squared distances from the mean, in full."""
    columns = list(zip(*totals, strict=True))
    return sum(sum((each - sum(column) / len(column)) ** 2 for each in column) for column in columns)


@pytest.mark.parametrize("seed", range(4))
def test_every_swap_that_helps_is_found_the_best_first_and_helps_as_much_as_told(seed):
    dice = Random(seed)
    curves = [[dice.random() for _ in range(3)] for _ in range(14)]
    forms, groups = [0, 0, 0, 1, 1, 1, 2, 2, 2], [0, 1, 1] * 3
    placed, free = list(range(9)), list(range(9, 14))
    kinds = [dice.randrange(3) for _ in curves]

    def totals(stand):
        mine = [[curves[one] for one, form in zip(stand, forms, strict=True) if form == at] for at in range(3)]
        return [[sum(column) for column in zip(*each, strict=True)] for each in mine]

    def after(one, newcomer, other=None):
        stand = list(placed)
        if other is not None:
            stand[other] = stand[one]
        stand[one] = newcomer
        return scatter(totals(stand)) - scatter(totals(placed))

    wanted = {
        (one, other, False): after(one, placed[other], other)
        for one, other in combinations(range(9), 2)
        if groups[one] == groups[other] and forms[one] != forms[other]
    } | {
        (one, at, True): after(one, free[at])
        for one in range(9)
        for at in range(5)
        if kinds[placed[one]] == kinds[free[at]]
    }
    alike = [kinds[one] for one in placed], [kinds[one] for one in free]
    found = Moves(curves, forms, groups).best(placed, free, alike, totals(placed), 100)
    told = {(one.place, one.other, one.free): one.grows for one in found}
    helpful = {move: grown for move, grown in wanted.items() if grown < -1e-5}
    assert told == pytest.approx(helpful, abs=1e-9)
    assert [*told.values()] == sorted(told.values())
    assert len(told) > 3
