"""What the answers of many learners tell: the twin of quizzer/insight/belief.py, in arrays."""

import numpy as np

from quizzer.insight.belief import (
    ABILITIES,
    ABILITY_SHARES,
    DIFFICULTIES,
    DIFFICULTY_SHARES,
    KNOWN_BEFORE,
    LEAST_DAYS,
    NOBODY,
    PACE_SHARES,
    PACES,
    Prediction,
    right_chance,
)
from quizzer.insight.forgetting import (
    FIRST_DECAY,
    decay_at,
    failed,
    passed,
    passed_perhaps,
    recall_by_half_life,
    recall_by_strength,
    trace,
)
from scripts.simulation.learners import ROOM, first_half_lives

HARD, GIFT = np.array(DIFFICULTIES), np.array(ABILITIES)


class HalfLives:
    """The first model at one pace: half-lives and shares by learner, entry and class of difficulty."""

    def __init__(self, shape, pace):
        self.pace = pace
        self.shares = np.tile(np.array(DIFFICULTY_SHARES), (*shape, 1))
        self.half_life = np.ones((*shape, len(HARD)))
        self.last = np.zeros(shape)
        self.count = np.zeros(shape, int)

    def recall(self, day):
        """The chance of recall by class."""
        days = np.maximum(day - self.last, LEAST_DAYS) * self.pace
        return recall_by_half_life(days[..., None], self.half_life)

    def study(self, asked, right, day, recall, guess):
        """What answering changes."""
        first = first_half_lives(HARD)
        before = right[..., None] & (guess == 0)
        fresh = np.where(before, passed(first, HARD, 0.5), first)
        up = passed_perhaps(self.half_life, HARD, recall, guess)
        old = np.where(right[..., None], up, failed(self.half_life, HARD, recall))
        after = np.where((self.count > 0)[..., None], old, fresh)
        self.half_life = np.where(asked[..., None], after, self.half_life)
        self.last = np.where(asked, day, self.last)
        self.count = self.count + asked


class Traces:
    """The second model at one pace: traces and shares by learner, entry and class of ability."""

    def __init__(self, shape, pace):
        self.pace = pace
        self.shares = np.tile(np.array(ABILITY_SHARES), (*shape, 1))
        self.laid = np.zeros((*shape, 0))
        self.decay = np.zeros((*shape, 0, len(GIFT)))
        self.count = np.zeros(shape, int)

    def _strength(self, day):
        total = np.zeros(self.shares.shape)
        for at in range(self.laid.shape[-1]):
            live = (at < self.count)[..., None]
            days = np.where(live, np.maximum(day - self.laid[..., at, None], LEAST_DAYS) * self.pace, 1.0)
            total += np.where(live, trace(days, self.decay[..., at, :]), 0.0)
        return np.exp(GIFT) * total

    def recall(self, day):
        """The chance of recall by class."""
        strength = self._strength(day)
        return np.where(strength > 0, recall_by_strength(np.where(strength > 0, strength, 1.0)), 0.0)

    def study(self, asked, right, day, recall, guess):  # noqa: ARG002 - a failure leaves the same trace
        """What answering changes."""
        decay = np.where((self.count > 0)[..., None], decay_at(self._strength(day)), FIRST_DECAY)
        known = asked & right & (self.count == 0) & (guess == 0)
        self._lay(known, day - KNOWN_BEFORE / self.pace, np.full(decay.shape, FIRST_DECAY))
        self._lay(asked, day, decay)

    def _lay(self, where, day, decay):
        if self.count.max() == self.laid.shape[-1]:
            self.laid = np.concatenate([self.laid, np.zeros((*self.count.shape, ROOM))], -1)
            self.decay = np.concatenate([self.decay, np.zeros((*self.count.shape, ROOM, len(GIFT)))], -2)
        at = np.nonzero(where)
        self.laid[(*at, self.count[at])] = day
        self.decay[(*at, self.count[at])] = decay[at]
        self.count[at] += 1


class Beliefs:
    """All models of all learners, their weights, and what each learner's answers were predicted to be.

    `priors` are what others' answers told each learner, entries by number.
    """

    def __init__(self, shape, guess=0.0, priors=()):
        self.priors = priors or [NOBODY] * shape[0]
        self.models = [kind(shape, pace) for kind in (HalfLives, Traces) for pace in PACES]
        for learner, prior in enumerate(self.priors):
            for model in self.models:
                told = prior.difficulties if isinstance(model, HalfLives) else prior.abilities
                for entry, shares in told.items():
                    model.shares[learner, int(entry)] = shares
        shapes = np.repeat(np.array([prior.shapes for prior in self.priors]), len(PACES), axis=1)
        self.logs = np.log(shapes * np.array(PACE_SHARES * 2))
        self.predictions = [[] for _ in range(shape[0])]
        self.met = np.zeros(shape, bool)
        self.guess = guess

    def weights(self):
        """By learner and model."""
        parts = np.exp(self.logs - self.logs.max(1, keepdims=True))
        return parts / parts.sum(1, keepdims=True)

    def study(self, asked, right, day):
        """Predict the answers of a session, then learn from them."""
        old, chances = asked & self.met, []
        for model in self.models:
            recall = model.recall(day)
            chance = right_chance(recall, self.guess)
            chances.append((model.shares * chance).sum(-1))
            likely = model.shares * np.where(right[..., None], chance, 1 - chance)
            shares = likely / likely.sum(-1, keepdims=True)
            model.shares = np.where(old[..., None], shares, model.shares)
            model.study(asked, right, day, recall, self.guess)
        self._weigh(old, right, np.stack(chances, -1))
        self.met |= asked

    def _weigh(self, old, right, chances):
        """Within a session the weights stand still, and move with all its answers at the end."""
        together = (chances * self.weights()[:, None, :]).sum(-1)
        for learner, entry in zip(*np.nonzero(old), strict=True):
            self.predictions[learner].append(Prediction(float(together[learner, entry]), bool(right[learner, entry])))
        told = np.log(np.where(right[..., None], chances, 1 - chances))
        self.logs += np.where(old[..., None], told, 0.0).sum(1)
