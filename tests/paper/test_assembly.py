"""Parallel forms: everything the blueprint counts holds, no entry twice, no enemies, forms equally hard."""

from random import Random

import pytest

from quizzer.errors import Refused
from quizzer.paper.assembly import assemble
from quizzer.paper.curves import ABILITIES, chances, difficulty, gap
from quizzer.paper.enemies import clash, enemies
from tests.paper.pools import blueprint, pool, section

PLAN = blueprint(
    section("safety", 8, levels={"apply": 2}, safety_critical=False),
    section("design", 10, calculations=(3, 6)),
    section("testing", 6, levels={"analyse": 1, "recall": 1}),
)


@pytest.mark.parametrize("forms", [1, 2, 4])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_every_form_meets_the_blueprint_and_no_entry_stands_twice(forms, seed):
    candidates = pool(180, seed)
    pairs = enemies(candidates) | {(0, 3), (3, 6), (1, 4)}
    found = assemble(PLAN, candidates, pairs, forms, Random(seed).random)
    places = [place.candidate for form in found.forms for place in form]
    assert len(places) == len(set(places)) == forms * 24
    for form in found.forms:
        assert not clash([place.candidate for place in form], pairs)
        for at, plan in enumerate(PLAN.sections):
            inside = [candidates[place.candidate] for place in form if place.section == at]
            assert len(inside) == plan.questions
            assert all(plan.wants(one.id, one.safety_critical) for one in inside)
            assert all(sum(one.level == level for one in inside) >= n for level, n in plan.levels.items())
            assert plan.calculations[0] <= sum(one.calculation for one in inside) <= plan.calculations[1]


@pytest.mark.parametrize("seed", range(4))
def test_forms_are_equally_hard_at_every_ability(seed):
    candidates = pool(300, seed)
    found = assemble(PLAN, candidates, frozenset(), 4, Random(seed).random)
    curves = [
        [sum(column) for column in zip(*(chances(candidates[p.candidate].facility) for p in form), strict=True)]
        for form in found.forms
    ]
    assert found.gap == pytest.approx(gap(curves))
    assert found.gap <= 0.05
    assert found.gap <= found.gap_before


@pytest.mark.parametrize("seed", range(3))
def test_forms_have_as_many_pictures_as_one_another(seed):
    """One more at the most: a picture that shows the text again makes a question easier."""
    dice = Random(f"pictures {seed}")
    candidates = [one._replace(pictured=dice.random() < 0.3) for one in pool(300, seed)]
    found = assemble(PLAN, candidates, frozenset(), 4, Random(seed).random)
    counts = [sum(candidates[place.candidate].pictured for place in form) for form in found.forms]
    assert max(counts) - min(counts) <= 1
    assert min(counts) > 0
    assert found.gap <= 0.15


@pytest.mark.parametrize("seed", range(3))
def test_forms_have_as_many_calculations_and_nearly_as_many_words_as_one_another(seed):
    dice = Random(f"words {seed}")
    candidates = [one._replace(load=25 + 40 * dice.random()) for one in pool(300, seed)]
    found = assemble(PLAN, candidates, frozenset(), 4, Random(seed).random)
    forms = [[candidates[place.candidate] for place in form] for form in found.forms]
    loads = [sum(one.load for one in form) for form in forms]
    assert max(loads) - min(loads) <= 0.08 * sum(loads) / 4  # what is drawn brings them nearer still
    assert found.uneven == pytest.approx((max(loads) - min(loads)) / (sum(loads) / 4))
    assert len({sum(one.calculation for one in form) for form in forms}) == 1
    assert found.gap <= 0.15


def test_the_same_dice_give_the_same_forms_and_others_give_others():
    candidates = pool(180)
    one, again, other = (assemble(PLAN, candidates, frozenset(), 2, Random(seed).random).forms for seed in (1, 1, 2))
    assert one == again
    assert one != other


def test_a_bank_that_is_too_small_is_proven_so_and_the_short_section_is_named():
    candidates = pool(90)  # thirty of each topic
    with pytest.raises(Refused, match=r"Design wants 40 for 4 forms, 30 are there"):
        assemble(PLAN, candidates, frozenset(), 4, Random(1).random)


def test_enemies_alone_can_make_a_bank_too_small():
    candidates = pool(30, topics=("safety",))[:3]
    plan = blueprint(section("safety", 2))
    with pytest.raises(Refused, match="Safety wants 2"):
        assemble(plan, candidates, frozenset({(0, 1), (0, 2), (1, 2)}), 1, Random(1).random)


def test_recently_used_entries_are_avoided_while_the_bank_allows():
    candidates = [one._replace(used=at % 2 == 0) for at, one in enumerate(pool(40, topics=("safety",)))]
    plan = blueprint(section("safety", 20))
    found = assemble(plan, candidates, frozenset(), 1, Random(1).random)
    assert not any(candidates[place.candidate].used for place in found.forms[0])
    found = assemble(blueprint(section("safety", 25)), candidates, frozenset(), 1, Random(1).random)
    assert sum(candidates[place.candidate].used for place in found.forms[0]) == 5


def test_a_facility_becomes_a_difficulty_and_back():
    """The curve of a facility, averaged over a standard normal group, gives the facility back (approximation: 0.01)."""
    import numpy as np

    dice = np.random.default_rng(1)
    group = dice.standard_normal(200_000)
    for facility in (0.2, 0.5, 0.65, 0.9):
        mean = float(np.mean(1 / (1 + np.exp(difficulty(facility) - group))))
        assert mean == pytest.approx(facility, abs=0.01)
    assert len(chances(0.5)) == len(ABILITIES)
