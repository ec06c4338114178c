"""What a review today is worth, for many learners and entries at once: quizzer/schedule's own gains, over arrays."""

from functools import cache

import numpy as np

from quizzer.insight.belief import DIFFICULTIES, LEAST_DAYS, PACES
from quizzer.insight.gain import Course
from quizzer.insight.half_life_gain import ahead, gain_by_half_life, gain_of_new_by_half_life
from quizzer.insight.policy import heard
from quizzer.insight.trace_gain import gain_by_traces
from scripts.simulation.believing import GIFT, HARD


def gains(belief, learners, weights, time):
    """Gains by learner and entry, as `policy.gains` for each of the learners; `weights` are theirs, by model."""
    shares = np.zeros_like(weights)
    for row, each in zip(shares, weights.tolist(), strict=True):
        for place, weight in heard(each):
            row[place] = weight
    total = np.zeros((len(learners), belief.met.shape[1]))
    for place, model in enumerate(belief.models):
        some = shares[:, place] > 0
        if some.any():
            course = Course(time.sessions, time.step, model.pace, time.price)
            by = by_half_lives if place < len(PACES) else by_traces
            total[some] += shares[some, place, None] * by(belief, model, learners[some], time.day, course)
    return total


def by_half_lives(belief, model, learners, day, course):
    """Under the first model."""
    values, shares = _table(course), model.shares[learners]
    mean = np.exp((shares * np.log(model.half_life[learners])).sum(-1))
    elapsed = np.maximum(day - model.last[learners], 0.0)
    old = gain_by_half_life(values, mean, shares @ HARD, elapsed, course)
    return np.where(belief.met[learners], old, gain_of_new_by_half_life(values, shares, DIFFICULTIES, course))


@cache
def _table(course):
    return ahead(course)


def by_traces(belief, model, learners, day, course):
    """Under the second model."""
    del belief  # what was never met has no traces
    shares, room = model.shares[learners], int(model.count[learners].max())
    live = np.arange(room) < model.count[learners][..., None]
    days = np.where(live, np.maximum(day - model.laid[learners][..., :room], LEAST_DAYS), np.inf)
    decays = np.where(live, np.einsum("lnc,lnkc->lnk", shares, model.decay[learners][..., :room, :]), 1.0)
    flat = (shares.shape[0] * shares.shape[1], room)
    ability = (shares @ GIFT).ravel()
    return gain_by_traces(ability, days.reshape(flat), decays.reshape(flat), course).reshape(shares.shape[:2])
