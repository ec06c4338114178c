"""The order by gain: what is believed from answers, when it is trusted, and what a review is worth."""

import numpy as np
import pytest

from quizzer.recall.belief import NOBODY, PACE_SHARES, Prediction, believe, go_on
from quizzer.recall.following import ABILITY_SHARES, DIFFICULTY_SHARES, Attempt
from quizzer.recall.forgetting import failed, first_half_life, passed, recall_by_half_life
from quizzer.recall.gain import Course, price_of
from quizzer.recall.half_life_gain import ahead, gain_by_half_life
from quizzer.recall.others import MOST, learn
from quizzer.recall.policy import Time, gains
from quizzer.recall.trace_gain import gain_by_traces, plans
from quizzer.recall.trust import calibration_error, constant_log_loss, evidence, log_loss, luck, trusted

COURSE = Course(20, 1.0, 1.0, price_of(4.0))


def test_the_worked_values_of_the_first_model():
    first = first_half_life(6)
    assert recall_by_half_life(1, first) == pytest.approx(0.6250, abs=5e-5)
    second = passed(first, 6, 0.625)
    assert recall_by_half_life(7, second) == pytest.approx(0.6401, abs=5e-5)
    assert passed(second, 6, recall_by_half_life(5, second)) == pytest.approx(50.40, abs=0.01)


def test_a_wrong_answer_never_lengthens_a_half_life():
    assert all(failed(h, 6, p) <= h for h in (0.5, 2.0, 40.0) for p in (0.0, 0.5, 1.0))


@pytest.mark.parametrize("shares", [DIFFICULTY_SHARES, ABILITY_SHARES, PACE_SHARES])
def test_shares_add_up(shares):
    assert sum(shares) == pytest.approx(1, abs=5e-4)


def easiest(*trials: Attempt) -> float:
    """The share of the easiest class of the first model at the usual pace, of the one entry answered."""
    belief = believe(trials)
    return float(belief.halves.shares[1, belief.entries["a"], 0])


def test_a_right_answer_after_long_makes_an_entry_easier_and_a_wrong_one_harder():
    easy = easiest(Attempt("a", 0, False), Attempt("a", 4, True))
    hard = easiest(Attempt("a", 0, False), Attempt("a", 4, False))
    assert easy > DIFFICULTY_SHARES[0] > hard


def test_a_right_answer_that_may_be_a_guess_tells_less():
    sure = easiest(Attempt("a", 0, False), Attempt("a", 4, True))
    lucky = easiest(Attempt("a", 0, False), Attempt("a", 4, True, 0.25))
    assert sure > lucky > DIFFICULTY_SHARES[0]


def test_first_sights_are_not_predicted():
    assert len(believe([Attempt("a", 0, False), Attempt("b", 0, True), Attempt("a", 1, True)]).predictions) == 1


@pytest.mark.parametrize("before", [0, 1, 40, 90])
def test_a_belief_that_goes_on_is_that_of_all_answers_at_once(before):
    trials = [Attempt(f"e{n % 7 % (1 + n // 20)}", n // 4, n % 3 > 0, 0.25 * (n % 2)) for n in range(100)]
    trials += [Attempt("new", 30, True), Attempt("e0", 31, False), Attempt("new", 31, True)]
    first, whole = believe(trials[:before]), believe(trials)
    weights, goes_on = first.weights, go_on(first, trials[before:])
    assert (goes_on.entries, goes_on.weights) == (whole.entries, whole.weights)
    assert goes_on.predictions == whole.predictions
    assert np.array_equal(goes_on.traces.shares, whole.traces.shares)
    time = Time(33, 20, 1.0, price_of(4.0))
    assert gains(goes_on, [*whole.entries], ["fresh"], time) == gains(whole, [*whole.entries], ["fresh"], time)
    assert first.weights == weights == believe(trials[:before]).weights
    assert goes_on is go_on(goes_on, [])


def test_without_answers_nothing_is_known_and_nothing_trusted():
    nothing = believe([])
    assert sum(nothing.weights) == pytest.approx(1)
    assert not trusted(nothing.weights, nothing.predictions)


def test_long_memories_speak_for_traces_and_against_fast_halving():
    trials = [Attempt(f"e{n}", 0, False) for n in range(60)] + [Attempt(f"e{n}", 12, n % 4 == 0) for n in range(60)]
    belief = believe(trials)
    assert sum(belief.weights[3:]) > 0.5


FAIR = [Prediction(0.25, n % 4 == 0) for n in range(100)] + [Prediction(0.75, n % 4 != 0) for n in range(100)]
WRONG = [Prediction(0.75, n % 4 == 0) for n in range(200)]
ONE, TORN = (0.0, 0.999, 0.0, 0.001, 0.0, 0.0), (0.0, 0.5, 0.0, 0.5, 0.0, 0.0)


def test_the_gate():
    assert trusted(ONE, FAIR)
    assert not trusted(TORN, FAIR)
    assert not trusted(ONE, FAIR[:50])
    assert not trusted(ONE, WRONG)
    assert trusted(ONE, FAIR[:50], FAIR), "others speak until one has answers enough of one's own"
    assert not trusted(ONE, FAIR[:50], WRONG)
    assert not trusted(ONE, WRONG, FAIR)


def test_the_gate_opens_earlier_where_traces_fade_as_there_the_plain_rule_is_far_from_the_best():
    few = [one for pair in zip(FAIR[:30], FAIR[100:130], strict=True) for one in pair]
    assert trusted(ONE[::-1], few)
    assert not trusted(ONE, few)
    assert not trusted(ONE[::-1], few[:30])


def test_evidence_adds_up_over_answers_and_a_small_margin_on_few_is_none():
    near = [Prediction(0.6, n % 5 > 1) for n in range(50)] + [Prediction(0.4, n % 5 < 2) for n in range(50)]
    assert evidence(near) == pytest.approx(100 * (0.6931 - 0.6730), abs=0.01)
    assert not trusted(ONE, near)
    assert trusted(ONE, [*near, *near])
    weak = [Prediction(0.55, n % 20 < 11) for n in range(250)] + [Prediction(0.45, n % 20 < 9) for n in range(250)]
    assert evidence(weak) > 2
    assert not trusted(ONE[::-1], weak), "slips and guesses look like slow forgetting"


def test_forecasts_worse_than_the_same_for_every_answer_are_not_trusted():
    wrong_way = [Prediction(0.45, n % 9 in {0, 2, 4, 6, 8}) for n in range(50)] + [
        Prediction(0.55, n % 9 in {1, 3, 5, 7}) for n in range(50)
    ]
    assert calibration_error(wrong_way) - luck(wrong_way) < 0.05, "luck alone could do that"
    assert log_loss(wrong_way) > constant_log_loss(wrong_way)
    assert not trusted(ONE, wrong_way)


def test_calibration_by_hand():
    assert calibration_error(WRONG) == pytest.approx(0.5)
    assert luck(WRONG) == pytest.approx(0.8 * (0.75 * 0.25 / 40) ** 0.5)
    assert log_loss([Prediction(0.5, True), Prediction(0.25, False)]) == pytest.approx((0.6931 + 0.2877) / 2, abs=1e-4)


def test_nothing_is_gained_by_a_review_of_what_is_known_for_years():
    values = ahead(COURSE)
    assert gain_by_half_life(values, 2000.0, 4.0, 1.0, COURSE) < gain_by_half_life(values, 3.0, 4.0, 2.0, COURSE)


def test_on_the_last_day_a_review_is_worth_what_it_adds():
    last = Course(1, 1.0, 1.0, price_of(4.0))
    half_life, elapsed = 3.0, 4.0
    recall = recall_by_half_life(elapsed, half_life)
    gain = gain_by_half_life(ahead(last), half_life, 6.0, elapsed, last) * (75 - 35 * recall)
    after = recall * recall_by_half_life(1, passed(half_life, 6, recall))
    after += (1 - recall) * recall_by_half_life(1, failed(half_life, 6, recall))
    paid = last.seconds_price(1) * (75 - 35 * recall)
    assert gain == pytest.approx(after - recall_by_half_life(5, half_life) - paid, abs=0.01)


def test_plans_run_from_today_or_later_to_before_the_exam():
    found = plans(20)
    assert (20,) in found
    assert all(list(plan) == sorted(set(plan), reverse=True) and plan[-1] >= 1 for plan in found)


def test_time_is_dearer_towards_the_exam_and_cheaper_where_there_is_more():
    assert COURSE.seconds_price(1) > COURSE.seconds_price(10)
    assert price_of(2) == price_of(4) > price_of(6) > price_of(8) > price_of(12) > price_of(16) == price_of(99)
    assert price_of(1, known=True) > price_of(4, known=True) > price_of(8, known=True) > price_of(8)


def test_a_fresh_trace_can_wait():
    fresh, old = gain_by_traces(np.full(2, 0.65), np.array([[0.5], [15.0]]), np.full((2, 1), 0.177), COURSE)
    assert fresh < old


def test_a_trace_that_is_not_there_counts_for_nothing():
    bare = gain_by_traces(np.array([0.65]), np.array([[3.0]]), np.array([[0.177]]), COURSE)
    room = gain_by_traces(np.array([0.65]), np.array([[3.0, np.inf]]), np.array([[0.177, 0.177]]), COURSE)
    assert room == pytest.approx(bare)


@pytest.mark.parametrize("later", [False, True])
def test_gains_of_what_was_met_and_of_new(later):
    trials = [Attempt("a", 0, False), Attempt("b", 0, False), Attempt("a", 1, True), Attempt("b", 1, False)]
    if later:
        trials += [Attempt(f"e{n}", 0, False) for n in range(60)] + [
            Attempt(f"e{n}", 12, n % 4 == 0) for n in range(60)
        ]
    found = gains(believe(trials), ["a", "b", "never met"], ["new"], Time(13, 20, 1.0, price_of(4.0)))
    assert set(found.met) == {"a", "b"}
    assert set(found.new) == {"new"}
    assert all(abs(gain) < 1 for gain in (*found.met.values(), *found.new.values()))


def test_two_torn_shapes_are_both_heard():
    trials = [Attempt("a", 0, False), Attempt("a", 1, True)]
    belief, time = believe(trials), Time(13, 20, 1.0, price_of(4.0))
    halves, traces, both = (
        gains(belief._replace(weights=weights), ["a"], ["b"], time)
        for weights in ((0, 1, 0, 0, 0, 0), (0, 0, 0, 0, 1, 0), (0, 0.25, 0, 0, 0.75, 0))
    )
    assert both.met["a"] == pytest.approx(0.25 * halves.met["a"] + 0.75 * traces.met["a"])
    assert both.new["b"] == pytest.approx(0.25 * halves.new["b"] + 0.75 * traces.new["b"])


EASY = [Attempt("easy", 0, False), Attempt("easy", 6, True), Attempt("easy", 20, True)]
HARD = [Attempt("hard", 0, False), Attempt("hard", 2, False), Attempt("hard", 4, False)]


def test_others_tell_which_entries_are_hard_and_near_the_exam_an_easy_one_is_worth_more():
    prior = learn([sorted([*EASY, *HARD], key=lambda trial: trial.day)] * 10)
    assert prior.difficulties["easy"][0] > DIFFICULTY_SHARES[0] > prior.difficulties["hard"][0]
    assert prior.abilities["easy"][-1] > ABILITY_SHARES[-1] > prior.abilities["hard"][-1]
    found = gains(believe([], prior), [], ["easy", "hard", "unheard of"], Time(0, 4, 1.0, price_of(4.0, known=True)))
    assert found.new["easy"] > found.new["unheard of"] > found.new["hard"]


def test_others_may_be_nobody_or_have_met_nothing_twice():
    assert learn([]) is NOBODY
    assert learn([[], [Attempt("a", 0, False), Attempt("b", 0, True)]]) is NOBODY


def test_however_many_others_there_are_own_answers_can_still_tell_of_another_forgetting():
    people = [
        [Attempt(f"e{n}", 0, False) for n in range(60)] + [Attempt(f"e{n}", 12, n % 4 == 0) for n in range(60)]
    ] * 9
    assert learn(people).shapes == pytest.approx((0.01, 0.99))
    assert len(learn(people).predictions) == MOST
