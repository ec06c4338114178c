"""The simulator: the program's own sessions over simulated learners, and the references beside them."""

import subprocess
import sys
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest

from quizzer.schedule import Memory, next_memory
from quizzer.schedule.fading import FADING
from scripts.simulation import fading, plainly, running, sessions
from scripts.simulation.frontier import frontier
from scripts.simulation.running import Setting
from scripts.simulation.sessions import GAINS, PLAIN, Life

DAY0 = date(2026, 1, 1)
SHAPE = (2, 6)
SEEDS = (1, 2)


def answers(days):
    """Who is asked what, by day: fixed dice."""
    dice = np.random.default_rng(3)
    return [(day, dice.random(SHAPE) < 0.6) for day in range(days)]


def test_the_plain_rule_of_the_references_is_the_programs_own():
    arrays, one = plainly.Memories(SHAPE), [None] * 6
    dice = np.random.default_rng(4)
    for day, asked in answers(40):
        quality = dice.integers(0, 6, SHAPE)
        arrays.study(asked, quality, day)
        for entry in range(6):
            if asked[0, entry]:
                one[entry] = next_memory(one[entry], int(quality[0, entry]), DAY0 + timedelta(day))
    for entry, memory in enumerate(one):
        assert isinstance(memory, Memory)
        assert (arrays.ease[0, entry], arrays.interval[0, entry]) == (memory.ease, memory.interval)
        assert DAY0 + timedelta(int(arrays.due[0, entry])) == memory.due


@pytest.mark.parametrize(("world", "low", "high"), [("exponential", 0.50, 0.60), ("act-r", 0.35, 0.42)])
def test_the_published_row_is_met_and_the_program_is_not_below_it(world, low, high):
    setting = Setting(world, 20, SEEDS)
    reference = running.run(setting, "plain").exam.mean()
    found = sessions.run(setting, PLAIN)
    assert low < reference < high
    assert found.exam.mean() > reference - 0.02, "two learners only: the standard error is about .01"
    assert found.idle < 0.5


def test_help_with_sums_keeps_the_minutes_and_costs_next_to_no_recall():
    """Nothing is presumed of what help teaches, so this is what it costs; one learner, who varies by some .02."""
    off, on = fading.both(Setting("exponential", 10, (1,), days=21))
    assert on.sums > off.sums - 0.03
    assert on.recall > off.recall - 0.03
    assert max(off.over, on.over) <= fading.OVER


def test_without_an_exam_help_is_given_and_the_minutes_are_kept():
    life = fading.Summing(Setting("exponential", 10, (2,)), FADING)
    for day in range(12):
        life.session(day, 20, None)
    asked = [review.exercise.partition(":")[0] for review in life.at.store.reviews()]
    assert "missing-line" in asked
    assert {"wrong-line", "wrong-line-or-none"} & set(asked)
    assert life.over <= fading.OVER


def test_who_comes_after_others_gains_by_their_answers():
    setting = Setting("act-r", 10, (3,), days=21)
    alone, after = (sessions.run(replace(setting, others=count), GAINS).exam.mean() for count in (0, 12))
    assert after > alone + 0.01


def test_the_same_seed_gives_the_same_learner():
    setting = Setting("exponential", 10, (7,), days=10)
    assert sessions.run(setting, GAINS).exam == sessions.run(setting, GAINS).exam


@pytest.mark.parametrize("minutes", [10, 20])
def test_a_session_is_one_of_the_programs_and_keeps_its_minutes(minutes):
    life = Life(Setting("act-r", minutes, (5,)), PLAIN, None, rules=True)
    for day in range(6):
        life.session(day, minutes, 42)
    assert len(life.at.store.answers("", 10_000)) > 4 * minutes
    assert life.counts[1] < 6 * 1.0, "minutes left idle"


def test_the_script_runs():
    script = Path(__file__).parents[2] / "scripts" / "simulate"
    done = subprocess.run(
        [sys.executable, script, "rules", "--learners", "1"], capture_output=True, text=True, check=True
    )
    assert "exponential, 20 min" in done.stdout
    assert "missed: nothing" in done.stdout


def test_more_minutes_never_lower_the_bound_and_the_program_stays_below_it():
    bounds = [frontier("act-r", minutes) for minutes in (5.0, 10.0)]
    assert 0 < bounds[0] <= bounds[1]
    assert sessions.run(Setting("act-r", 10, (1,)), GAINS).exam.mean() < bounds[1] + 0.02
