"""The simulator against the program's own rules, and against itself."""

import subprocess
import sys
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest

from quizzer.insight import others
from quizzer.insight.belief import ABILITY_SHARES, DIFFICULTY_SHARES, Trial, believe
from quizzer.insight.gain import price_of
from quizzer.insight.policy import Time, gains
from quizzer.schedule import Memory, next_memory
from scripts.simulation import gaining, plainly
from scripts.simulation.believing import Beliefs
from scripts.simulation.frontier import frontier
from scripts.simulation.running import Setting, run

DAY0 = date(2026, 1, 1)
SHAPE = (2, 6)


def answers(days):
    """Who is asked what and is right, by day: fixed dice."""
    dice = np.random.default_rng(3)
    return [(day, dice.random(SHAPE) < 0.6, dice.random(SHAPE) < 0.6) for day in range(days)]


def test_the_plain_rule_is_the_programs_own():
    arrays, one = plainly.Memories(SHAPE), [None] * 6
    dice = np.random.default_rng(4)
    for day, asked, _ in answers(40):
        quality = dice.integers(0, 6, SHAPE)
        arrays.study(asked, quality, day)
        for entry in range(6):
            if asked[0, entry]:
                one[entry] = next_memory(one[entry], int(quality[0, entry]), DAY0 + timedelta(day))
    for entry, memory in enumerate(one):
        assert isinstance(memory, Memory)
        assert (arrays.ease[0, entry], arrays.interval[0, entry]) == (memory.ease, memory.interval)
        assert DAY0 + timedelta(int(arrays.due[0, entry])) == memory.due


def both(guess):
    """The beliefs of the arrays and, for the first learner, those of the program."""
    beliefs, trials = Beliefs(SHAPE, guess), []
    for day, asked, right in answers(12):
        beliefs.study(asked, right, day)
        trials += [Trial(str(n), day, bool(right[0, n]), guess) for n in range(6) if asked[0, n]]
    return beliefs, believe(trials)


@pytest.mark.parametrize("guess", [0.0, 0.25])
def test_beliefs_are_the_programs_own(guess):
    arrays, own = both(guess)
    assert arrays.weights()[0] == pytest.approx(own.weights)
    assert len(arrays.predictions[0]) == len(own.predictions)
    for model, followed in zip(arrays.models, own.models, strict=True):
        for entry, state in followed.entries.items():
            assert model.shares[0, int(entry)] == pytest.approx(state.shares)


@pytest.mark.parametrize("place", range(6))
@pytest.mark.parametrize(("sessions", "step"), [(30, 1), (1, 1), (25, 7)])
def test_gains_are_the_programs_own(place, sessions, step):
    arrays, own = both(0.0)
    weights = [float(place == n) for n in range(6)]
    own = replace(own, weights=tuple(weights))
    time = Time(14, sessions, step, price_of(4.0))
    found = gains(own, [str(n) for n in range(6)], [], time)
    rows = gaining.gains(arrays, np.array([0]), np.array([weights]), time)
    assert rows[0] == pytest.approx([found.met[str(n)] for n in range(6)], abs=1e-9)
    fresh, none = Beliefs(SHAPE), believe([])
    found = gains(replace(none, weights=tuple(weights)), [], [str(n) for n in range(6)], time)
    rows = gaining.gains(fresh, np.array([0]), np.array([weights]), time)
    assert rows[0] == pytest.approx([found.new[str(n)] for n in range(6)], abs=1e-9)


def test_what_others_tell_is_what_the_models_make_of_each_of_them():
    people = [Beliefs(SHAPE), Beliefs(SHAPE)]
    trials = [[], []]
    for person, seed in enumerate((3, 8)):
        dice = np.random.default_rng(seed)
        for day in range(12):
            asked, right = dice.random(SHAPE) < 0.6, dice.random(SHAPE) < 0.6
            people[person].study(asked, right, day)
            trials[person] += [Trial(str(n), day, bool(right[0, n])) for n in range(6) if asked[0, n]]
    told = others.learn(trials)
    for usual, model, found in (
        (DIFFICULTY_SHARES, 1, told.difficulties),
        (ABILITY_SHARES, 4, told.abilities),
    ):
        moved = sum(np.log(person.models[model].shares[0] / np.array(usual)) for person in people)
        wanted = np.array(usual) * np.exp(others.COUNT * moved)
        wanted /= wanted.sum(-1, keepdims=True)
        assert np.array([found[str(n)] for n in range(6)]) == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("world", ["exponential", "act-r"])
def test_who_comes_after_others_gains_by_their_answers(world):
    setting = Setting(world, 10, tuple(range(4)))
    alone, after = (run(replace(setting, others=count), "ours").exam.mean() for count in (0, 15))
    assert after > alone + 0.01


@pytest.mark.parametrize(("world", "low", "high"), [("exponential", 0.50, 0.60), ("act-r", 0.36, 0.42)])
def test_the_published_row_is_met_and_ours_is_not_below_it(world, low, high):
    setting = Setting(world, 20, tuple(range(4)))
    plain, ours = (run(setting, policy).exam.mean() for policy in ("plain", "ours"))
    assert low < plain < high
    assert ours > plain - 0.005


def test_the_same_seed_gives_the_same_learner():
    setting = Setting("exponential", 10, (7,))
    assert run(setting, "ours").exam == run(setting, "ours").exam


def test_the_script_runs():
    script = Path(__file__).parents[2] / "scripts" / "simulate"
    done = subprocess.run([sys.executable, script, "--quick"], capture_output=True, text=True, check=True)
    assert "exponential, 20 min" in done.stdout
    assert "lost to the plain rule by more than 0.005: nowhere" in done.stdout


def test_the_bound_of_whoever_is_not_told_lies_below_that_of_whoever_is_and_above_ours():
    for world, bound in (("exponential", 0.342), ("act-r", 0.359)):
        untold = frontier(world, 10.0)
        ours = run(Setting(world, 10, tuple(range(4))), "ours").exam.mean()
        assert ours - 0.02 < untold < bound


def test_more_minutes_never_lower_the_bound():
    bounds = [frontier("act-r", minutes) for minutes in (5.0, 10.0, 20.0)]
    assert bounds == sorted(bounds)
    assert bounds[0] > 0
