"""Topics from first answers, entries from their repeats: what practice tells and what it does not."""

import numpy as np
import pytest

from quizzer.recall.expected_mark import Part, outlook
from quizzer.recall.guess import GUESS
from quizzer.recall.meetings import Answers
from quizzer.recall.people import shared
from quizzer.recall.recall_grid import CLOCKS, HALF_LIVES
from quizzer.recall.topics import Knowledge, Own, half_life, known, usual

TODAY = 740_000


def answers(*rows):
    """Rows of topic, days ago, right, entry; all of them choices among options."""
    return Answers(
        [r[0] for r in rows], [TODAY - r[1] for r in rows], [r[2] for r in rows], [1] * len(rows), [r[3] for r in rows]
    )


def recall(knowledge, days=0, sizes=None):
    return outlook(knowledge, days, guess=0.0, sizes=sizes).topics()[0].mean


FIRSTS = [(0, 30 - n, n % 2, n) for n in range(20)]  # twenty entries met, one a day: every second one known
REPEATS = [(0, 9 - at, 1, n) for n in range(20) for at in (9, 6, 3, 0)]  # then all of them right, four times


def test_practice_of_some_entries_says_nothing_of_those_never_met():
    """Read as fresh samples of the topic, 90 right of 100 would be a recall of .85 and more."""
    without, practised = known(answers(*FIRSTS), 1, TODAY), known(answers(*FIRSTS, *REPEATS), 1, TODAY)
    assert recall(practised) == pytest.approx(recall(without), abs=0.1)
    assert recall(practised) < 0.6


def test_and_is_not_read_as_a_topic_that_is_never_forgotten():
    middle, _, _ = half_life(known(answers(*FIRSTS, *REPEATS), 1, TODAY))
    assert middle < 2 * half_life(known(answers(*FIRSTS), 1, TODAY))[0]


def test_entries_practised_are_known_where_the_exam_asks_them():
    practised = known(answers(*FIRSTS, *REPEATS), 1, TODAY)
    all_met, few_met = recall(practised, sizes=[20]), recall(practised, sizes=[2000])
    assert all_met > 0.85
    assert few_met == pytest.approx(recall(practised), abs=0.02)


def test_an_entry_missed_again_and_again_is_known_less_than_its_neighbours():
    rows = [*FIRSTS, *REPEATS]
    missed = [(topic, ago, 0 if entry == 7 else right, entry) for topic, ago, right, entry in rows]
    whole, lame = (recall(known(answers(*each), 1, TODAY), sizes=[20]) for each in (rows, missed))
    assert 0.01 < whole - lame < 0.15  # one in twenty, and a little for the others


def test_what_is_left_of_an_entry_by_hand():
    """One of four entries was met ten days ago, once; half of its own memory goes in 8 days, of its topic's in 8.

    f = 2^(-10 / 8) = .4204; met: f (.8 x .9 + .1) + (1 - f) G = .3448 + .5796 G; G = .5 x 2^(-10 / 8) = .2102.
    All: .75 G + .25 x (.3448 + .5796 G) = .1577 + .0862 + .0305 = .2743; with guesses .25 + .75 x .2743 = .4557.
    """
    lives = len(HALF_LIVES)
    first, ones = np.zeros((CLOCKS * lives, 1)), np.ones((1, lives, 1))
    first[0] = 1.0
    own = Own(
        np.array([0]),
        np.array([10]),
        np.array([1]),
        np.array([0.8]),
        np.array([0.1]),
        first[:lives],
        0.9 * ones,
        0.81 * ones,
    )
    topics = np.ones((1, CLOCKS * lives, 1))
    knowledge = Knowledge(first, 0.5 * topics, 0.25 * topics, np.array([1]), np.array([1]), np.array([10]), 10, own)
    assert outlook(knowledge, 0, GUESS, [4]).topics()[0].mean == pytest.approx(0.4557, abs=1e-4)


def test_what_others_hand_on_is_as_wide_as_people_are():
    """Two hundred who never forget: the next one is likely to be slow, and may be anything."""
    slow = answers(*[(t, 200 - 40 * n, 1, 100 * t + n) for t in range(20) for n in range(5)])
    lives = shared([slow] * 200, 20, TODAY).sum(axis=1).reshape(CLOCKS, -1).sum(axis=0)
    before = usual().sum(axis=1).reshape(CLOCKS, -1).sum(axis=0)
    below = np.searchsorted(HALF_LIVES, 60.0)
    assert 0.05 < lives[:below].sum() < 0.7 * before[:below].sum()


def test_the_clock_is_learnt_from_what_first_answers_do_after_a_rest():
    """Topics visited every 60 days are at a loss each time, and not more so later: practice restores them."""
    rested = answers(
        *[
            (t, 240 - 60 * n - at, int(at > 0 and (t + at) % 8 > 0), 100 * t + 10 * n + at)
            for t in range(20)
            for n in range(4)
            for at in range(3)
        ]
    )
    clocks = known(rested, 20, TODAY).weights.sum(axis=1).reshape(CLOCKS, -1).sum(axis=1)
    assert clocks[0] > 0.9


def test_neither_the_order_of_people_nor_of_topics_shows_in_what_is_read():
    rows = [(t, ago, (t + ago) % 3 > 0, 50 * t + ago % 7) for t in range(6) for ago in range(0, 40, 3)]
    parts = [Part(10, [1 / 6] * 6)]
    one, other = (
        outlook(known(answers(*each), 6, TODAY), 5, sizes=[30] * 6).marks(parts) for each in (rows, rows[::-1])
    )
    assert one == other
