"""Answers of several forms taken together, held to another implementation and to a hand-worked case."""

from random import Random

import numpy as np
import pytest
from scipy import stats

from quizzer.marks.pooling import FEWEST, PooledAnswer, pooled
from quizzer.paper.pool import APART_95, JUDGEMENT, Candidate, difference_doubt, doubt


def answers(seed, forms=3, people=25):
    """Forms of different hardness, with people of different ability."""
    dice = Random(seed)
    return [
        PooledAnswer(f"{form}", int(dice.random() < 0.3 + 0.2 * form), dice.randint(5, 20) + 8 * form)
        for form in range(forms)
        for _ in range(people)
    ]


@pytest.mark.parametrize("seed", range(5))
def test_r_is_the_correlation_of_what_is_left_when_each_forms_mean_is_taken_off(seed):
    """scipy's pearsonr on columns that numpy has centred by form, and the partial correlation of pingouin's kind."""
    found = answers(seed)
    labels = np.array([one.form for one in found])
    columns = [np.array([one.right for one in found], float), np.array([one.rest for one in found], float)]
    for column in columns:
        for form in set(labels):
            column[labels == form] -= column[labels == form].mean()
    expected = stats.pearsonr(*columns).statistic
    figures = pooled(found)
    assert figures.with_rest == pytest.approx(expected)
    assert figures.error == pytest.approx(np.sqrt((1 - expected**2) / (len(found) - 3 - 1)))
    raw = stats.pearsonr([one.right for one in found], [one.rest for one in found]).statistic
    assert abs(raw - expected) > 0.05, "forms that differ would look like a question that tells people apart"


@pytest.mark.parametrize(("right", "people"), [(12, 40), (39, 40), (55, 200)])
def test_the_range_is_wilsons(right, people):
    found = pooled([PooledAnswer("A", int(at < right), at % 7) for at in range(people)])
    expected = stats.binomtest(right, people).proportion_ci(0.95, method="wilson")
    assert tuple(found.interval) == pytest.approx((expected.low, expected.high), abs=1e-4)


def test_below_the_fewest_only_the_count_is_said():
    found = pooled([PooledAnswer("A", at % 2, at) for at in range(FEWEST - 1)])
    assert (found.people, found.right, found.with_rest, found.error) == (FEWEST - 1, (FEWEST - 1) // 2, None, None)
    assert pooled([PooledAnswer("A", 1, at) for at in range(FEWEST)]).with_rest is None, "all right tells nobody apart"


@pytest.mark.parametrize(("facility", "seen"), [(0.65, 0), (0.5, 30), (0.9, 500)])
def test_the_doubt_of_a_facility_is_that_of_its_beta_distribution(facility, seen):
    weight = JUDGEMENT + seen
    beta = stats.beta(facility * weight, (1 - facility) * weight)
    assert beta.mean() == pytest.approx(facility)
    assert doubt(facility, seen) == pytest.approx(beta.var())


def candidate(id, facility=0.65, seen=0):
    return Candidate(
        id, "recall", False, False, facility, False, frozenset(), frozenset(), (), variance=doubt(facility, seen)
    )


def test_the_difference_of_two_forms_is_as_uncertain_as_their_questions_are():
    """Against draws from the betas by numpy: 30 questions a form, none of them answered yet, and with 100 answers.

    Of several forms it is the two that lie furthest apart.
    """
    for seen, letters in ((0, "AB"), (100, "AB"), (0, "ABCD")):
        forms = [[candidate(f"{form}{at}", 0.65, seen) for at in range(30)] for form in letters]
        weight = JUDGEMENT + seen
        dice = np.random.default_rng(7)
        drawn = dice.beta(0.65 * weight, 0.35 * weight, size=(20000, len(letters), 30)).sum(axis=2)
        furthest = np.quantile(np.ptp(drawn, axis=1), 0.95)
        assert difference_doubt(forms) == pytest.approx(furthest, rel=0.03)


@pytest.mark.parametrize("forms", APART_95)
def test_how_far_the_furthest_of_several_lie_apart_is_the_studentised_range(forms):
    assert APART_95[forms] == pytest.approx(stats.studentized_range.ppf(0.95, forms, 1e5) / 2**0.5, abs=2e-4)


def test_what_both_forms_ask_is_no_difference():
    same = [candidate("a"), candidate("b")]
    assert difference_doubt([same, same]) == 0.0
    assert difference_doubt([same]) == 0.0
    one = difference_doubt([[*same, candidate("c")], [*same, candidate("d")]])
    assert one == pytest.approx(1.959964 * (2 * doubt(0.65, 0)) ** 0.5)
