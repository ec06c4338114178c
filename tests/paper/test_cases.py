"""Families in papers: each case is a question of its own, twice in a form at the most and never in two forms."""

from collections import Counter
from itertools import combinations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.bank.families import case_of, seed_of
from quizzer.errors import Refused
from quizzer.paper.assembly import assemble
from quizzer.paper.enemies import enemies, limits
from tests.paper.pools import blueprint, pool, section


@pytest.fixture(autouse=True, scope="module")
def few_swaps():
    """Enough swaps to meet every rule; how even they make the forms is no matter here."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("quizzer.paper.swapping.SWAPS", 500)
        patched.setattr("quizzer.paper.swapping.BEST_SWAPS", 20)
        yield


def with_cases(entries, dice):
    """The entries, about half of them families of 5 to 12 cases answered by 4 things."""
    found = []
    for one in entries:
        if dice.random() < 0.5:
            cases = range(1, 6 + int(dice.random() * 8))
            found += [
                one._replace(
                    calculation=False,
                    case=case,
                    thing=f"thing {int(dice.random() * 4)}",
                    words=frozenset(f"word {int(dice.random() * 30)}" for _ in range(6)),
                )
                for case in cases
            ]
        else:
            found.append(one)
    return found


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 6), st.integers(10, 30))
def test_no_case_stands_twice_over_forms_nor_more_than_two_of_a_family_in_one(seed, forms, entries):
    candidates = with_cases(pool(entries, seed, ("safety", "design")), Random(seed))
    plan = blueprint(section("safety", 4), section("design", 3))
    pairs = enemies(candidates)
    try:
        found = assemble(plan, candidates, pairs, forms, Random(seed).random)
    except Refused:
        return  # a bank as small as that; the tests below hold that it is not refused without need
    assert found == assemble(plan, candidates, pairs, forms, Random(seed).random)
    places = [place.candidate for form in found.forms for place in form]
    assert len(places) == len(set(places)) == forms * 7
    for form in found.forms:
        asked = [candidates[place.candidate] for place in form]
        assert max(Counter(one.id for one in asked).values()) <= 2
        for one, other in combinations(asked, 2):
            assert one.id != other.id or one.thing != other.thing
        assert not {(min(pair), max(pair)) for pair in combinations([p.candidate for p in form], 2)} & pairs


def test_one_family_serves_as_many_forms_as_it_has_pairs_of_cases_and_no_more():
    """Eight cases of one family, each answered by another thing: four forms of two questions, or eight of one."""
    (one,) = pool(1, topics=("safety",))
    cases = [one._replace(case=n, thing=f"thing {n}", words=frozenset({f"word {n}"})) for n in range(1, 9)]
    for questions, forms in ((2, 4), (1, 8)):
        found = assemble(blueprint(section("safety", questions)), cases, enemies(cases), forms, Random(1).random)
        assert [len(form) for form in found.forms] == [questions] * forms
    with pytest.raises(Refused, match="Safety wants 9 for 9 forms, 8 are there"):
        assemble(blueprint(section("safety", 1)), cases, enemies(cases), 9, Random(1).random)
    with pytest.raises(Refused, match="Safety wants 3 for 1 forms, 2 are there"):
        assemble(blueprint(section("safety", 3)), cases, enemies(cases), 1, Random(1).random)


def test_cases_that_the_same_thing_answers_or_that_say_nearly_the_same_are_kept_apart():
    (one,) = pool(1, topics=("safety",))
    said = [{"pump", "quay"}, {"pump", "quay", "stops"}, {"belt", "drum"}, {"lamp", "roof"}]
    cases = [
        one._replace(case=n, thing=thing, words=frozenset(words))
        for n, (words, thing) in enumerate(zip(said, "abcc", strict=True), 1)
    ]
    assert enemies(cases) == {(0, 1)}
    assert {(limit.places, limit.most) for limit in limits(cases)} == {
        (frozenset({2, 3}), 1),
        (frozenset({0, 1, 2, 3}), 2),
    }


def test_an_entry_declared_an_enemy_is_kept_from_every_case_of_the_family():
    one, other = pool(2)
    cases = [other._replace(case=n, words=frozenset({f"word {n}"})) for n in (1, 2)]
    assert enemies([one._replace(enemies=(other.id,)), *cases]) == {(0, 1), (0, 2)}
    assert enemies([one, *(each._replace(enemies=(one.id, other.id)) for each in cases)]) == {(0, 1), (0, 2)}


def test_a_family_is_no_likelier_than_an_entry_to_be_taken():
    """Ten cards beside ten families of ten cases: about half of what is asked is from families, not ten in eleven."""
    entries = pool(20, topics=("safety",))
    candidates = entries[:10] + [
        one._replace(case=n, thing=f"thing {n}", words=frozenset({f"{one.id} {n}"}))
        for one in entries[10:]
        for n in range(1, 11)
    ]
    taken = []
    for seed in range(30):
        found = assemble(blueprint(section("safety", 6)), candidates, frozenset(), 1, Random(seed).random)
        taken += [bool(candidates[place.candidate].case) for place in found.forms[0]]
    assert 0.35 <= sum(taken) / len(taken) <= 0.65


@given(st.integers(1, 12), st.integers(0, 20_000), st.data())
def test_the_first_seed_of_a_case_asks_it_and_none_before_it_does(cases, start, data):
    case = data.draw(st.integers(1, cases))
    found = seed_of(cases, case, start)
    assert case_of(cases, found) == case
    assert start <= found < start + cases
    assert all(case_of(cases, seed) != case for seed in range(start, found))
