"""When a mark is named and when only a range is told: the rule on both sides, and what the range is made of."""

import numpy as np
import pytest

from quizzer.recall.expected_mark import Outlook, Part, outlook
from quizzer.recall.foresight import ONE_IN_TEN, foreseen, recalled
from quizzer.recall.meetings import Answers
from quizzer.recall.recall_grid import CLOCKS, HALF_LIVES, SPREAD_UNKNOWN
from quizzer.recall.topics import known, usual

TODAY = 740_000
TOPICS, QUESTIONS = 20, 60
PAPER = [Part(QUESTIONS, [1 / TOPICS] * TOPICS)]


def practised(ago):
    """Fifteen answers in each topic, two of three right, all on one day."""
    rows = [(topic, TODAY - ago, int(n % 3 > 0)) for topic in range(TOPICS) for n in range(15)]
    return known(Answers(*zip(*rows, strict=True), [1] * len(rows)), TOPICS, TODAY)


JUST, LONG_AGO = practised(0), practised(60)


def test_a_mark_that_does_not_hang_on_forgetting_is_named():
    ahead = outlook(JUST, 0)
    told = foreseen(ahead, PAPER)
    assert told.marks == ahead.marks(PAPER)
    assert (told.low, told.high) == told.marks.between(0.9)


@pytest.mark.parametrize(("knowledge", "days"), [(JUST, 42), (LONG_AGO, 21)])
def test_one_that_does_is_not_and_the_range_is_wider(knowledge, days):
    ahead = outlook(knowledge, days)
    told = foreseen(ahead, PAPER)
    low, high = ahead.marks(PAPER).between(0.9)
    assert told.marks is None
    assert told.low < low
    assert told.high > high


def test_the_range_is_that_of_a_fast_and_of_a_slow_one():
    """The one in ten who forgets fastest halves in 110 x e^(-1.28 x .9) = 35 days, the slowest in 349."""
    ahead = outlook(JUST, 42)
    fast, slow = ahead.leaning(PAPER, (-ONE_IN_TEN, ONE_IN_TEN))
    told = foreseen(ahead, PAPER)
    assert (told.low, told.high) == (fast.between(0.9)[0], slow.between(0.9)[1])
    assert fast.mean < ahead.marks(PAPER).mean < slow.mean


@pytest.mark.parametrize(("apart", "named"), [(0.066, True), (0.069, False)])
def test_the_limit_is_a_mark_and_a_half_of_sixty(apart, named):
    """Two half-lives, as likely as each other, and so much more recall by the longer one; worked by hand.

    Six steps of the grid are 1.25^6 = 3.815 times; leaning by 1.28 of .9 makes the shorter 3.815^1.424 = 6.73 times
    likelier, 6.73 in 7.73 = .871 instead of .5. So the share moves by .371 of `apart`: by 1.5 of 60 at .0675.
    """
    lives = np.zeros((CLOCKS * len(HALF_LIVES), 1))
    lives[[6, 12]] = 0.5
    mean = np.full((TOPICS, *lives.shape), 0.5)
    mean[:, 12] += apart
    ahead = Outlook(lives, mean, np.zeros_like(mean))
    assert (foreseen(ahead, PAPER).marks is not None) == named


def test_leaning_moves_what_is_usual_by_a_standard_deviation():
    logs = np.tile(np.log(HALF_LIVES), CLOCKS)
    shares = (logs - logs.min()) / np.ptp(logs)
    ahead = Outlook(usual(), np.broadcast_to(shares[None, :, None], (1, *usual().shape)), np.zeros((1, *usual().shape)))
    middle, longer, shorter = (betas[0].mean * np.ptp(logs) for betas in ahead.topics_leaning((0.0, 1.0, -1.0)))
    assert longer - middle == pytest.approx(SPREAD_UNKNOWN, abs=0.06)
    assert middle - shorter == pytest.approx(SPREAD_UNKNOWN, abs=0.06)


def test_a_section_is_told_as_the_paper_is():
    ahead, section = outlook(JUST, 42), [Part(3, PAPER[0].shares)]
    assert foreseen(ahead, section, told=False).marks is None
    assert foreseen(outlook(JUST, 0), section, told=True).marks is not None


@pytest.mark.parametrize("days", [0, 42])
def test_recall_by_topic_is_told_as_the_mark_is(days):
    marks = foreseen(outlook(JUST, days), PAPER).marks
    ahead = outlook(JUST, days, guess=0.0)
    found = recalled(ahead, [QUESTIONS / TOPICS] * TOPICS)
    betas = ahead.topics()
    assert {each.told for each in found} == {marks is not None}
    assert [each.mean for each in found] == [beta.mean for beta in betas]
    assert all(
        (-np.subtract(*each.ends()) > np.subtract(*beta.between(0.9)[::-1]) + 0.01) == (not each.told)
        for each, beta in zip(found, betas, strict=True)
    )
