"""Marks to come: the worked case, the laws of the mixture, and what a plug-in would have claimed."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizzer.recall.expected_mark import LIKE_A_COIN, Beta, Outlook, Part, beta_of, marks_of, outlook
from quizzer.recall.meetings import Answers
from quizzer.recall.people import shared
from quizzer.recall.topics import half_life, known, usual

TODAY = 740_000


def marks_from(parts):
    """The mark on a paper whose parts, of so many questions, each come from one topic with this beta."""
    betas = [beta for _, beta in parts]
    mean = np.array([beta.mean for beta in betas])[:, None, None]
    variance = np.array([beta.mean * (1 - beta.mean) / (beta.a + beta.b + 1) for beta in betas])[:, None, None]
    known = Outlook(np.ones((1, 1)), mean, variance)
    return known.marks([Part(n, np.eye(len(parts))[at]) for at, (n, _) in enumerate(parts)])


def test_the_worked_case():
    """Three topics, 30, 20 and 10 questions, worked by hand: E = 30 x .8 + 20 x .5625 + 10 x .5."""
    marks = marks_from([(30, Beta(8, 2)), (20, Beta(4.5, 3.5)), (10, Beta(2, 2))])
    assert marks.mean == pytest.approx(40.25)
    assert marks.variance == pytest.approx(39.767, abs=5e-4)
    assert math.sqrt(marks.variance) == pytest.approx(6.306, abs=5e-4)
    assert marks.between(0.9) == (30, 50)
    assert marks.at_least(36) == pytest.approx(0.78, abs=0.005)


def test_a_plug_in_binomial_would_claim_half_the_width():
    parts = [(30, Beta(8e8, 2e8)), (20, Beta(4.5e8, 3.5e8)), (10, Beta(2e8, 2e8))]
    assert math.sqrt(marks_from(parts).variance) == pytest.approx(3.50, abs=0.005)


def test_a_beta_has_its_interval():
    low, high = Beta(8, 2).between(0.9)
    assert (low, high) == (pytest.approx(0.5709, abs=1e-4), pytest.approx(0.9590, abs=1e-4))


@given(st.integers(1, 120), st.floats(0.02, 0.98), st.floats(0, 0.5))
def test_chances_are_whole_and_keep_the_mean(questions, share, spread):
    luck = questions * share * (1 - share)
    marks = marks_of(questions * share, luck * (1 + (questions - 1) * spread), questions)
    assert sum(marks.chances) == pytest.approx(1)
    assert sum(k * chance for k, chance in enumerate(marks.chances)) == pytest.approx(questions * share, rel=1e-3)
    low, high = marks.between(0.9)
    assert 0 <= low <= high <= questions


@pytest.mark.parametrize(("mean", "variance"), [(0.0, 0.0), (1.0, 0.0), (0.5, 0.0), (0.5, 0.3), (0.5, -1e-18)])
def test_a_beta_of_extremes_is_still_one(mean, variance):
    beta = beta_of(mean, variance)
    assert beta.a > 0
    assert beta.b > 0
    assert beta.a + beta.b <= LIKE_A_COIN + 1


def answers(*rows):
    """Rows of topic, days ago, right; all of them choices among options."""
    return Answers([r[0] for r in rows], [TODAY - r[1] for r in rows], [r[2] for r in rows], [1] * len(rows))


def recall(knowledge, days=0, guess=0.0):
    return [beta.mean for beta in outlook(knowledge, days, guess).topics()]


def test_right_answers_raise_and_wrong_ones_lower():
    found = recall(known(answers(*[(0, 1, 1)] * 9, *[(1, 1, 0)] * 9), 3, TODAY))
    assert found[0] > found[2] > found[1]


def test_what_is_not_practised_fades_and_never_below_a_guess():
    knowledge = known(answers(*[(0, 0, 1)] * 20), 1, TODAY)
    fading = [recall(knowledge, days, guess=0.25)[0] for days in (0, 10, 40, 200, 5000)]
    assert fading == sorted(fading, reverse=True)
    assert fading[-1] == pytest.approx(0.25, abs=0.01)


def test_nobody_and_nothing_is_not_an_error():
    knowledge = known(Answers([], [], [], []), 4, TODAY)
    # levels weigh as Beta(2.5, 2): half of the things are known, and a little more
    assert recall(knowledge) == pytest.approx([2.5 / 4.5] * 4, abs=0.02)
    marks = outlook(knowledge, 30).marks([Part(60, [0.25] * 4)])
    low, high = marks.between(0.9)
    assert high - low > 25


def test_the_order_of_answers_does_not_matter():
    rows = [(0, 9, 1), (1, 5, 0), (0, 2, 0), (1, 30, 1)]
    assert recall(known(answers(*rows), 2, TODAY)) == pytest.approx(recall(known(answers(*rows[::-1]), 2, TODAY)))


def test_answers_ahead_of_today_are_left_out():
    rows = [(0, 3, 1), (0, 2, 1)]
    with_it, without = (known(answers(*rows, *more), 1, TODAY) for more in ([(0, -400, 0)], []))
    assert recall(with_it) == pytest.approx(recall(without))


def test_fast_forgetting_is_told_from_slow():
    quick = answers(*[(t, 60 - 30 * n, int(n == 0)) for t in range(20) for n in range(2)])
    slow = answers(*[(t, 60 - 30 * n, 1) for t in range(20) for n in range(2)])
    assert half_life(known(quick, 20, TODAY))[0] < 25 < half_life(known(slow, 20, TODAY))[0]


def test_others_who_forget_slowly_make_a_newcomer_look_slow():
    others = [answers(*[(t, 90 - 45 * n, 1) for t in range(20) for n in range(3)])] * 10
    few = answers((0, 5, 1))
    alone = half_life(known(few, 20, TODAY, usual()))[0]
    among = half_life(known(few, 20, TODAY, shared(others, 20, TODAY)))[0]
    assert among > alone


def test_a_newcomer_is_taken_to_know_what_the_others_know():
    one = answers((0, 5, 1))
    strong, weak = ([answers(*[(t, 40 - n, right) for t in range(10) for n in range(3)])] * 20 for right in (1, 0))
    high, low = (recall(known(one, 10, TODAY, shared(people, 10, TODAY)))[1] for people in (strong, weak))
    alone = recall(known(one, 10, TODAY))[1]
    assert high > alone + 0.1
    assert low < alone - 0.1


def test_nobody_else_is_as_nothing_known():
    assert shared([], 5, TODAY) == pytest.approx(usual())
    assert usual().sum() == pytest.approx(1)


def test_one_other_person_decides_little():
    other = [answers(*[(t, 40 - n, 1) for t in range(10) for n in range(3)])]
    one = answers((0, 5, 0))
    among, alone = recall(known(one, 10, TODAY, shared(other, 10, TODAY))), recall(known(one, 10, TODAY))
    assert abs(among[1] - alone[1]) < 0.1
