"""The measurement of calibration, small: the promises that few learners can hold, and the measures themselves."""

import numpy as np

from scripts.calibration.learners import GUESS, QUESTIONS, TODAY, TOPICS, World, learner
from scripts.calibration.report import ece, kept, measured


def test_a_few_hundred_learners_are_met_by_the_estimate():
    line = measured(World(5), 150, seed=3, others=300)
    assert line.ece < 0.05
    assert 0.82 <= line.cover <= 0.98
    assert abs(line.bias) < 2
    assert line.brier < 0.25


def test_somebody_alone_with_a_store_is_met_too():
    line = measured(World(5), 150, seed=3, others=0)
    assert line.ece < 0.05
    assert 0.85 <= line.cover <= 0.99
    assert abs(line.bias) < 1.5


def test_a_line_is_held_to_its_promises():
    good = measured(World(5), 2, seed=3, others=2)._replace(ece=0.01, bias=0.4, cover=0.94)
    assert kept(World(5), 0, good)
    assert not kept(World(5), 200, good)  # with others there is no excuse for so wide an interval
    assert kept(World(2), 200, good)
    for change in ({"bias": 0.6}, {"bias": -0.6}, {"ece": 0.03}, {"cover": 0.84}):
        assert not kept(World(2), 0, good._replace(**change))


def test_the_error_of_calibration_is_nought_for_the_truth_and_seen_for_a_boast():
    dice = np.random.default_rng(1)
    truth = dice.random(200_000)
    hit = (dice.random(200_000) < truth).astype(int)
    assert ece(truth, hit) < 0.01
    assert ece(np.clip(truth + 0.1, 0, 1), hit) > 0.08


def test_learners_practise_before_the_day_and_sit_the_whole_paper():
    for answers in (2, 5, 15):
        one = learner(World(answers), np.random.default_rng(answers))
        assert one.days.max() <= TODAY
        assert len(one.mock_right) == QUESTIONS
        assert set(one.mock_topics) == set(range(TOPICS))
        assert GUESS < one.right.mean() < 1
