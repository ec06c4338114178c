"""The measurement of calibration, small: both kinds of learners, the path it takes, and the measures themselves."""

import numpy as np
import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.workflows.forecast import readiness
from scripts.calibration import learners, report, traces
from scripts.calibration.measuring import Found, Numbers, Ranges, ece, found, lucks
from scripts.calibration.stand_in import Desk, estimates
from tests.shippedbank import SHELF

NUMBERS = Numbers(400, 0.4, 0.2, 0.9, 0.01, 0.0, 0.01, 14.0, 4.0)
RANGES = Ranges(400, 0.9, 0.01, 20.0)
PLAN = blueprint(SHELF, "wiring-regulations")
ITEMS = traces.Items(tuple(SHELF.listed()), PLAN, np.random.default_rng(1))


def test_a_few_learners_are_met_by_the_estimate():
    kind = next(iter(report.kinds(3)))
    dice = np.random.default_rng(3)
    people = [kind.draw(5, dice) for _ in range(60)]
    (told,) = estimates(kind.plan, kind.listed, people, [], [0])
    cell = found(told, [one.marks[0] for one in people])
    assert cell.told + cell.ranged > 0.9
    assert cell.ranges.cover >= 0.86
    assert 12 < cell.ranges.width < 26


def test_it_goes_by_the_function_of_the_screen(monkeypatch):
    """A store with one person: what is measured is what `ready_group` returns, its rules of silence included."""
    one = learners.learner(learners.People(5), (0,), np.random.default_rng(1))
    monkeypatch.setattr(readiness, "COVERED", 1.1)
    ((told,),) = estimates(learners.paper(), learners.BANK, [one], [], [0])
    assert told.marks is told.span is None
    assert told.answers == len(one.practice)


def test_numbers_and_ranges_are_measured_apart():
    """Fifteen answers a topic: today's mark is named for about half of the learners."""
    dice = np.random.default_rng(4)
    people = [learners.learner(learners.People(15), (0,), dice) for _ in range(90)]
    (told,) = estimates(learners.paper(), learners.BANK, people, [], [0])
    cell = found(told, [one.marks[0] for one in people])
    assert (cell.numbers.learners, cell.ranges.learners) == (round(90 * cell.told), round(90 * cell.ranged))
    assert cell.numbers.learners + cell.ranges.learners == 90
    assert cell.numbers.cover >= 0.78
    assert abs(cell.numbers.bias) < 2.5
    assert cell.numbers.rmse < 7
    assert cell.numbers.width < cell.ranges.width


def test_those_measured_are_not_among_the_others():
    one, other = (learners.learner(learners.People(2), (0,), np.random.default_rng(n)) for n in (1, 2))
    assert [each.id for each in Desk([one], [other]).trainees()] == ["o0"]


@pytest.mark.parametrize("change", [{"bias": 1.6}, {"bias": -1.6}, {"cover": 0.85}, {"cover": 0.96}, {"beyond": 0.07}])
def test_a_cell_is_held_to_the_goal(change):
    assert Found(0.5, 0.5, NUMBERS, RANGES).kept(0)
    assert not Found(0.5, 0.5, NUMBERS._replace(**change), RANGES).kept(0)


def test_a_range_alone_is_to_hold_the_mark_and_may_be_wide():
    assert not Found(0.5, 0.5, NUMBERS, RANGES._replace(cover=0.85)).kept(0)
    assert Found(0.0, 1.0, None, RANGES._replace(cover=1.0)).kept(0)


def test_three_weeks_ahead_two_marks_are_allowed():
    assert NUMBERS._replace(bias=1.9).kept(21)
    assert not NUMBERS._replace(bias=2.1).kept(21)


def test_the_error_of_calibration_is_nought_for_the_truth_and_seen_for_a_boast():
    dice = np.random.default_rng(1)
    truth = dice.random(200_000)
    hit = (dice.random(200_000) < truth).astype(int)
    assert ece(truth, hit) < 0.01
    assert ece(np.clip(truth + 0.1, 0, 1), hit) > 0.08


def test_luck_alone_shows_an_error_in_few_answers():
    assert 0.02 < lucks(np.full(400, 0.7), np.random.default_rng(1)).mean() < 0.09


@pytest.mark.parametrize("answers", [2, 5, 15])
def test_learners_practise_before_the_day_and_sit_the_whole_paper(answers):
    dice = np.random.default_rng(answers)
    for one in (
        learners.learner(learners.People(answers), (0, 21), dice),
        traces.learner(ITEMS, traces.People(answers), (0, 21), dice),
    ):
        days = [sat.day for sat in one.practice]
        assert days == sorted(days)
        assert days[-1] <= learners.TODAY
        assert all(0 <= mark <= 60 for mark in one.marks.values())
        assert set(one.marks) == {0, 21}


def test_most_answers_of_the_second_kind_are_repeats_and_repeats_go_better():
    dice = np.random.default_rng(5)
    firsts, repeats = [], []
    for _ in range(60):
        met = set()
        for sat in traces.learner(ITEMS, traces.People(15), (), dice).practice:
            (repeats if sat.entry in met else firsts).append(sat.right)
            met.add(sat.entry)
    assert 0.5 < len(repeats) / (len(firsts) + len(repeats)) < 0.65
    assert np.mean(repeats) > np.mean(firsts) + 0.1
