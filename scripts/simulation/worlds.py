"""The two worlds: what really goes on in the heads of many learners, all entries at once (learners x entries)."""

import numpy as np

C_A, C_C, TAU, NOISE, DAY = 0.177, 0.217, -0.704, 0.255, 2160.0


class HalfLife:
    def __init__(self, dice, shape, mean=6.0, sd=2.0, drift=0.0, drop=0.0):
        self.difficulty = np.clip(dice(mean, sd), 1, 10)
        self.half_life = np.zeros(shape)
        self.last = np.zeros(shape)
        self.known = np.zeros(shape, bool)
        self.drift = drift
        self.drop = drop

    def recall(self, day):
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.where(self.known, 2.0 ** (-(day - self.last) / self.half_life), 0.0)

    def answered(self, asked, right, day):
        p, h, d = self.recall(day), self.half_life, self.difficulty
        first = -1 / np.log2(np.maximum(0.925 - 0.05 * d, 0.025))
        with np.errstate(divide="ignore", invalid="ignore"):
            passed = h * (1 + np.exp(3.81) * d**-0.534 * h**-0.127 * (1 - p) ** 0.97)
            failed = np.minimum(h, np.exp(-0.041) * d**-0.041 * h**0.377 * (1 - p) ** -0.227)
        after = np.where(~self.known, first, np.where(right, passed, failed))
        fails = asked & self.known & ~right
        self.half_life = np.where(asked, after, h)
        self.difficulty = np.clip(d + self.drift * fails - self.drop * (asked & self.known & right), 1, 18)
        self.last = np.where(asked, day, self.last)
        self.known = self.known | asked


class Traces:
    def __init__(self, dice, shape, mean=0.65, sd=0.35, room=64):
        self.ability = dice(mean, sd)
        self.when = np.zeros((*shape, 0))
        self.decay = np.zeros((*shape, 0))
        self.count = np.zeros(shape, int)

    def strength(self, day):
        live = np.arange(self.when.shape[-1]) < self.count[..., None]
        t = np.where(live, np.maximum((day - self.when) * DAY, 1.0), 1.0)
        return np.exp(self.ability) * np.where(live, t ** -self.decay, 0.0).sum(-1)

    def recall(self, day):
        s = self.strength(day)
        with np.errstate(divide="ignore", over="ignore"):
            return 1 / (1 + np.exp(TAU / NOISE) * s ** (-1 / NOISE))

    def answered(self, asked, right, day):
        s = self.strength(day)
        if self.count.max() == self.when.shape[-1]:
            pad = np.zeros((*self.count.shape, 4))
            self.when, self.decay = np.concatenate([self.when, pad], -1), np.concatenate([self.decay, pad], -1)
        at = np.nonzero(asked)
        self.when[(*at, self.count[at])] = day
        self.decay[(*at, self.count[at])] = C_C * s[at] + C_A
        self.count[at] += 1
