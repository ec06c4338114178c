"""What really goes on in the heads of many learners, all entries at once: arrays of learners x entries."""

import numpy as np

from quizzer.recall.forgetting import (
    FIRST_DECAY,
    decay_at,
    failed,
    passed,
    recall_by_half_life,
    recall_by_strength,
    trace,
)

KNOWN_FOR = (40.0, 26.0, 9.0)  # days before the first session on which entries known already were met
ROOM = 4


def first_half_lives(difficulty):
    """`forgetting.first_half_life`, for arrays."""
    return -1 / np.log2(np.maximum(0.925 - 0.05 * difficulty, 0.025))


class HalfLives:
    """The first world: every memory halves in its own time. `traits` are bell-shaped with mean 0 and deviation 1."""

    def __init__(self, traits):
        self.difficulty = np.clip(6 + 2 * traits, 1, 10)
        self.half_life = np.ones(traits.shape)
        self.last = np.zeros(traits.shape)
        self.met = np.zeros(traits.shape, bool)

    def recall(self, day):
        """The chance of recall of everything on a day; nothing for what was never met."""
        return np.where(self.met, recall_by_half_life(day - self.last, self.half_life), 0.0)

    def study(self, asked, recalled, day):
        """What answering leaves."""
        recall = self.recall(day)
        old = np.where(
            recalled, passed(self.half_life, self.difficulty, recall), failed(self.half_life, self.difficulty, recall)
        )
        after = np.where(self.met, old, first_half_lives(self.difficulty))
        self.half_life = np.where(asked, after, self.half_life)
        self.last = np.where(asked, day, self.last)
        self.met = self.met | asked


class Traces:
    """The second world: every exposure leaves a trace that decays on its own."""

    def __init__(self, traits):
        self.scale = np.exp(0.65 + 0.35 * traits)
        self.laid = np.zeros((*traits.shape, 0))
        self.decay = np.zeros((*traits.shape, 0))
        self.count = np.zeros(traits.shape, int)

    def _strength(self, day):
        live = np.arange(self.laid.shape[-1]) < self.count[..., None]
        days = np.broadcast_to(day, self.count.shape)[..., None]
        left = trace(np.where(live, days - self.laid, 1.0), self.decay)
        return self.scale * np.where(live, left, 0.0).sum(-1)

    def recall(self, day):
        """The chance of recall of everything on a day; nothing for what was never met."""
        strength = self._strength(day)
        return np.where(strength > 0, recall_by_strength(np.where(strength > 0, strength, 1.0)), 0.0)

    def study(self, asked, recalled, day):  # noqa: ARG002 - in this world a recall leaves the same trace as a failure
        """What answering leaves."""
        decay = np.where(self.count > 0, decay_at(self._strength(day)), FIRST_DECAY)
        if self.count.max() == self.laid.shape[-1]:
            pad = np.zeros((*self.count.shape, ROOM))
            self.laid, self.decay = (np.concatenate([old, pad], -1) for old in (self.laid, self.decay))
        at = np.nonzero(asked)
        self.laid[(*at, self.count[at])] = np.broadcast_to(day, self.count.shape)[at]
        self.decay[(*at, self.count[at])] = decay[at]
        self.count[at] += 1


WORLDS = {"exponential": HalfLives, "act-r": Traces}
