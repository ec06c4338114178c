"""Rasch's model, held to a published fit, to scipy's search for the greatest likelihood, and to known difficulties."""

import numpy as np
import pytest

from quizzer.marks.rasch import Before, FormAnswers, rasch
from tests.marks.bock_lieberman import A

NOTHING = 1e3  # the deviation of somebody who knows nothing beforehand
# D. Rizopoulos, Journal of Statistical Software 17 (2006) 5, the fits of section 6 of the law school test by marginal
# likelihood (from memory): with slope 1, difficulties and standard errors; with a common slope of .7551, difficulties.
SLOPE_ONE = ((-2.8720, 0.1287), (-1.0630, 0.0821), (-0.2576, 0.0766), (-1.3881, 0.0865), (-2.2188, 0.1048))
SLOPE, COMMON = 0.7551, (-3.6153, -1.3224, -0.3176, -1.7301, -2.7802)


def fit_of(marks, spread=None, deviation=NOTHING):
    return rasch([FormAnswers(range(5), marks)], [Before(0.0, deviation)] * 5, spread)


def test_the_published_fit_with_slope_one_and_its_standard_errors():
    found = fit_of(A, spread=1.0).difficulties
    assert [(each.difficulty, each.error) for each in found] == [pytest.approx(row, abs=2e-3) for row in SLOPE_ONE]


def test_the_published_fit_with_a_common_slope_and_the_shares_right():
    """A slope of .7551 over abilities of spread 1 is a slope of 1 over abilities of spread .7551."""
    found = fit_of(A)
    assert found.spread == pytest.approx(SLOPE, abs=2e-3)
    assert [each.difficulty / SLOPE for each in found.difficulties] == pytest.approx(COMMON, abs=5e-3)
    shares = np.mean(A, axis=0)
    assert [each.facility for each in found.difficulties] == pytest.approx(shares, abs=2e-3), "nothing else is known"


def two_forms(seed, apart):
    """Two forms without a common question; the people of the second are better by so much."""
    dice = np.random.default_rng(seed)
    hard = dice.normal(-0.5, 0.9, 24)
    forms = []
    for at in range(2):
        questions = np.arange(12) + 12 * at
        able = dice.normal(apart * (at - 0.5), 1, 60)
        right = dice.random((60, 12)) < 1 / (1 + np.exp(hard[questions] - able[:, None]))
        forms.append(FormAnswers(questions.tolist(), right.astype(int).tolist()))
    return hard, forms, [Before(float(b), 0.55) for b in hard + dice.normal(0, 0.5, 24)]


def test_the_likelihood_is_the_greatest_and_the_errors_are_its_curvature():
    """scipy searches the same likelihood, integrated over an even grid, and numpy turns its curvature over."""
    optimize = pytest.importorskip("scipy.optimize")
    marks, before = np.array(A[::30]), [Before(-1.0, 0.6), *[Before(-0.5, 0.4)] * 4]
    able = np.linspace(-6, 6, 81)
    weights = np.exp(-(able**2) / 2)

    def against(hard):
        lost = sum(((b - one.difficulty) / one.deviation) ** 2 / 2 for b, one in zip(hard, before, strict=True))
        chance = 1 / (1 + np.exp(hard[:, None] - able))
        each = np.prod(np.where(marks[:, :, None], chance, 1 - chance), axis=1)
        return lost - np.log(each @ weights).sum()

    best = optimize.minimize(against, np.zeros(5), method="BFGS").x
    found = rasch([FormAnswers(range(5), marks)], before, spread=1.0).difficulties
    assert [each.difficulty for each in found] == pytest.approx(best, abs=1e-3)
    step = np.eye(5) * 1e-3
    bent = [
        [
            (against(best + i + j) - against(best + i - j) - against(best - i + j) + against(best - i - j)) / 4e-6
            for j in step
        ]
        for i in step
    ]
    assert [each.error for each in found] == pytest.approx(np.sqrt(np.diag(np.linalg.inv(bent))), rel=2e-3)


def test_who_sat_a_form_is_not_taken_for_how_hard_it_is():
    """Over eight draws of better people on the second form, shares right are further out than the model's."""
    errors = []
    for seed in range(8):
        hard, forms, before = two_forms(seed, 1.0)
        fit = rasch(forms, before)
        points = np.random.default_rng(seed).normal(0, 1, 4000)
        true = (1 / (1 + np.exp(hard[:, None] - points))).mean(axis=1)
        shares = np.concatenate([np.mean(form.right, axis=0) for form in forms])
        judged = (1 / (1 + np.exp(np.array([one.difficulty for one in before])[:, None] - points))).mean(axis=1)
        classical = (60 * shares + 20 * judged) / 80
        errors.append(
            [np.square(classical - true).mean(), np.square([e.facility for e in fit.difficulties] - true).mean()]
        )
    plain, fitted = np.mean(errors, axis=0)
    assert fitted < 0.8 * plain


def test_intervals_of_two_standard_errors_hold_the_true_difficulty_as_often_as_they_say():
    held = []
    for seed in range(8):
        hard, forms, before = two_forms(seed, 0.0)
        for each, true in zip(rasch(forms, before).difficulties, hard, strict=True):
            held.append(abs(each.difficulty - true) < 1.96 * each.error)
    assert 0.9 < np.mean(held) < 0.99
