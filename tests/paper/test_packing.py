"""Questions change places inside their section so that pages are filled; everything else stays as it was."""

from random import Random

import pytest

from quizzer.paper.packing import Heights, packed_orders, white


def always(_):
    return True


def high(seed, sections=(5, 6, 4), least=0.15, most=0.7, page=700.0):
    """Questions of drawn heights, as shares of a page."""
    dice = Random(seed)
    drawn = tuple(tuple(page * dice.uniform(least, most) for _ in range(many)) for many in sections)
    return Heights(page, 20.0, drawn, tuple(40.0 for _ in sections), 25.0)


def given(heights):
    return [list(range(len(each))) for each in heights.questions]


def test_white_is_what_is_left_at_the_foot_of_each_page():
    # by hand: 10 + 60 of 100 leave 30, 30 + 10 + 50 = 90 leave 10
    assert white(Heights(100, 10, ((60, 30, 50),), (10,)), [[0, 1, 2]]) == pytest.approx([0.3, 0.1])
    assert white(Heights(100, 10, ((60, 30, 50),), (0,)), [[0, 1, 2]]) == pytest.approx([0.0, 0.5])


def test_where_white_is_shared_only_a_page_of_one_question_has_it_at_its_foot():
    # by hand: 60 + 10 + 20 leave 10 between them, 50 alone leave half a page
    heights = Heights(100, 10, ((60, 20, 50),), (0,), shared=True)
    assert white(heights, [[0, 1, 2]]) == pytest.approx([0.0, 0.5])
    assert white(heights, [[0, 2, 1]]) == pytest.approx([0.4, 0.2]), "the last page is not filled"


def test_what_is_parted_goes_overleaf_between_its_pieces():
    # by hand: 40 + 10 + 30 leave 20 on the first page, the picture 5 on the next, and 20 + 10 + 40 leave 30
    heights = Heights(100, 10, ((40, 145, 40),), (0,), parted={(0, 1): (30, 95, 20)})
    assert white(heights, [[0, 1, 2]]) == pytest.approx([0.2, 0.05, 0.3])
    # its opening alone leaves 70; its options and 40 leave 30; and 40 more leave 60
    assert white(heights, [[1, 0, 2]]) == pytest.approx([0.7, 0.05, 0.3, 0.6])


def test_what_is_higher_than_a_page_goes_on_overleaf():
    assert white(Heights(100, 10, ((250, 30),), (0,)), [[0, 1]]) == pytest.approx([0.0, 0.0, 0.1])


def test_the_end_mark_takes_the_last_question_with_it():
    # 60 + 10 + 25 = 95 leave no room for 10 more: the 25 go over with them
    assert white(Heights(100, 10, ((60, 25),), (0,), 10), [[0, 1]]) == pytest.approx([0.4, 0.65])


def test_the_end_mark_stands_alone_after_what_is_parted():
    # 30, 10 and 30 leave 30; the picture and the options leave 5, which is too little for 10
    heights = Heights(100, 10, ((30, 145),), (0,), 10, parted={(0, 1): (30, 60, 35)})
    assert white(heights, [[0, 1]]) == pytest.approx([0.3, 0.05, 0.9])


@pytest.mark.parametrize("seed", range(10))
def test_an_order_never_wastes_more_than_the_one_given_and_mostly_much_less(seed):
    looks = [high(seed), high(seed + 100, least=0.3, most=0.9)]
    orders = packed_orders(looks, always, Random(seed).random)
    assert [sorted(each) for each in orders] == given(looks[0])
    before, after = ([white(each, tried) for each in looks] for tried in (given(looks[0]), orders))
    assert sum(map(len, after)) <= sum(map(len, before))
    mean = sum(sum(pages) / len(pages) for pages in after)
    assert mean <= sum(sum(pages) / len(pages) for pages in before)


def test_what_may_not_stand_never_stands():
    looks = [high(3)]
    orders = packed_orders(looks, lambda tried: tried[0][0] == 0, Random(1).random)
    assert orders[0][0] == 0
    assert packed_orders(looks, lambda _: False, Random(1).random) == given(looks[0])


def test_the_same_dice_give_the_same_order():
    assert packed_orders([high(1)], always, Random(5).random) == packed_orders([high(1)], always, Random(5).random)
