"""Questions about circuits counted for real."""

from itertools import count

from quizzer.workflows.bank.counting import counted, percentile
from tests.shippedbank import SHELF


def test_the_shipped_questions_differ_and_are_timed():
    ticks = count()
    found = list(counted(SHELF, 6, lambda: float(next(ticks))))
    assert len(found) >= 24
    assert all(each.made == 6 == len(each.seconds) and each.different >= 5 for each in found)
    assert {second for each in found for second in each.seconds} == {1.0}


def test_the_share_of_a_hundred_is_one_of_them():
    assert percentile([float(n) for n in range(1, 101)], 0.99) == 99.0
    assert percentile([5.0], 0.99) == 5.0
