"""Which entries may stand in a paper, how hard they are taken to be, which pairs give each other away."""

from itertools import combinations
from random import Random

import pytest

from quizzer.paper.enemies import enemies
from quizzer.paper.pool import Observed, candidates, content_words, expected_facility, observed_of
from quizzer.paper.positions import acceptable, limits, longest_run
from tests.banktext import CARD, ORDER, TEMPLATE, entry
from tests.paper.pools import pool


def test_cards_and_templates_with_options_are_candidates_and_others_are_not():
    typed = TEMPLATE.replace('level = "apply"', 'form = "number"\nlevel = "apply"')
    (card,), (template,) = candidates(entry(CARD), None), candidates(entry(TEMPLATE), None, {0})
    assert (card.calculation, card.used, card.case) == (False, False, 0)
    assert (template.calculation, template.used, template.case) == (True, True, 0)
    assert candidates(entry(ORDER), None) == candidates(entry(typed), None) == []


def test_facility_is_judged_by_level_or_by_the_author_and_then_observed():
    assert expected_facility(entry(CARD), None) == 0.75
    assert expected_facility(entry(TEMPLATE), None) == 0.65
    judged = entry(CARD.replace('level = "recall"', 'level = "recall"\nfacility = 0.4'))
    assert expected_facility(judged, None) == 0.4
    assert expected_facility(judged, Observed(20, 20)) == pytest.approx(0.7)
    assert expected_facility(judged, Observed(2000, 1800)) == pytest.approx(0.9, abs=0.01)


def test_questions_of_the_same_words_are_enemies():
    one, other, third = pool(3)
    same = frozenset({"breaker", "rating", "socket", "circuit", "largest"})
    found = enemies([one._replace(words=same), other._replace(words=same | {"ring"}), third])
    assert found == {(0, 1)}


def test_no_pair_that_is_alike_is_passed_over():
    """Every pair looked at one by one; in whole numbers, so that 4 words of 5 are never alike by a last bit."""
    dice, found = Random(3), []
    for one in pool(260):
        words = dice.choices([f"w{n}" for n in range(12)], range(1, 13), k=1 + int(dice.random() * 9))
        found.append(one._replace(words=frozenset(words), id=f"one/file/{int(dice.random() * 90)}"))
    pairs = {
        (at, other)
        for (at, one), (other, two) in combinations(enumerate(found), 2)
        if len(one.words & two.words) ** 2 * (400 if one.id == two.id else 25)
        > (49 if one.id == two.id else 16) * len(one.words) * len(two.words)
    }
    assert len(pairs) > 200
    assert enemies(found) == pairs


def test_a_key_that_stands_in_another_question_gives_it_away():
    one, other, third = pool(3)
    key = frozenset({"earth", "electrode", "resistance"})
    found = enemies(
        [one._replace(key_words=key, words=key), other._replace(words=key | {f"w{n}" for n in range(30)}), third]
    )
    assert found == {(0, 1)}


def test_declared_enemies_are_kept_apart():
    one, other, third = pool(3)
    assert enemies([one._replace(enemies=(third.id, "no/such/entry")), other, third]) == {(0, 2)}


def test_numbers_and_small_words_do_not_make_questions_alike():
    assert content_words("What does a 32 A breaker at 230 V take?") == {"breaker"}


def test_where_keys_stand_is_drawn_again_only_in_the_tails_of_chance():
    assert limits(60, 4) == (7, 24)
    assert acceptable("ABCD" * 15)
    assert not acceptable("A" * 27 + "BCD" * 11)
    assert not acceptable("ABCD" * 5 + "AAAAAAA" + "BCD" * 11)
    assert longest_run("AABBBC") == 3
    assert acceptable(list("BADC"))


PICTURE = 'picture = { kind = "resistors", net = "R_1 {R_1} + R_2 {R_2}" }\nlevel = "apply"'


def test_what_was_answered_before_a_picture_came_says_nothing_of_how_hard_it_is():
    plain, pictured = entry(TEMPLATE), entry(TEMPLATE.replace('level = "apply"', PICTURE))
    id = plain.head.id
    seen = {(id, plain.head.digest): Observed(40, 4), (id, "earlier still"): Observed(10, 1)}
    assert observed_of(plain, seen) == Observed(50, 5)
    assert observed_of(pictured, seen) is None
    assert observed_of(pictured, seen | {(id, pictured.head.digest): Observed(8, 7)}) == Observed(8, 7)
    assert [one.pictured for each in (plain, pictured) for one in candidates(each, None)] == [False, True]
