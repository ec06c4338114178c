"""Many learners through the same days: every learner is a seed, and all policies meet the same entries and luck."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from quizzer.insight.belief import Trial
from quizzer.insight.gain import SECONDS_RIGHT, SECONDS_WRONG, price_of
from quizzer.insight.others import learn
from quizzer.insight.policy import Time
from quizzer.insight.trust import trusted
from scripts.simulation import gaining, plainly
from scripts.simulation.believing import Beliefs
from scripts.simulation.learners import KNOWN_FOR, WORLDS

POLICIES = ("random", "plain", "rule s", "ours")
OTHERS_MINUTES = (10.0, 20.0, 40.0)  # that those who studied the same entries before took a day, in turn
LEAST_SECONDS = 40  # a question is begun only while so much of the session is left
WEEK, WEEKS, WEEK_MINUTES = 7, 78, 10.0


@dataclass(frozen=True)
class Setting:
    """What is simulated. `lucky` of the failures are guessed right; `missed` of the sessions do not take place."""

    world: str
    minutes: float
    seeds: tuple[int, ...]
    entries: int = 300
    days: int = 42
    lucky: float = 0.0
    missed: float = 0.0
    known: float = 0.0
    topics: float = 0.0  # how much of the spread of difficulty is that of topics of fifteen entries
    pace: float = 1.0  # how fast the world's time runs: a learner who forgets faster than published
    long: bool = False  # 18 months of a short weekly session behind the exam
    others: int = 0  # who studied the same entries before, by rule s; ours learns from them


@dataclass(frozen=True)
class Outcome:
    """Mean recall by learner on the exam day and, if it was long, at the end; the share of sessions by gain."""

    exam: np.ndarray
    end: np.ndarray | None
    by_gain: float


class Luck:
    """The dice of the learners, the same for each policy; those of somebody else over the same entries by `person`."""

    def __init__(self, setting, person=0):
        self._dice = [np.random.default_rng([seed, 42]) for seed in setting.seeds]
        count, topics = setting.entries, -(-setting.entries // 15)
        own = self._each(lambda dice: dice.normal(size=count))
        shared = self._each(lambda dice: dice.normal(size=topics))[:, np.arange(count) // 15]
        self.traits = np.sqrt(1 - setting.topics) * own + np.sqrt(setting.topics) * shared
        if person:
            self._dice = [np.random.default_rng([seed, 43, person]) for seed in setting.seeds]
        self.known = self._each(lambda dice: dice.random(count)) < setting.known

    def _each(self, draw):
        return np.stack([draw(dice) for dice in self._dice])

    def session(self, count):
        """Numbers for recall, guesses, a missed day and a random order."""
        drawn = self._each(lambda dice: dice.random((4, count)))
        return drawn[:, 0], drawn[:, 1], drawn[:, 2, 0], drawn[:, 3]


def run(setting, policy):
    """The outcome of a policy."""
    luck = Luck(setting)
    room = Room(setting, luck, policy)
    for day in range(setting.days):
        room.session(day, setting.minutes, setting.days - day, 1)
    exam = room.recall(setting.days)
    if not setting.long:
        return Outcome(exam, None, room.by_gain / setting.days)
    for week in range(WEEKS):
        room.session(setting.days + week * WEEK, WEEK_MINUTES, WEEKS - week, WEEK)
    return Outcome(exam, room.recall(setting.days + WEEKS * WEEK), room.by_gain / (setting.days + WEEKS))


@lru_cache(maxsize=4)
def told(setting):
    """What the others' answers tell each learner."""
    people = [_trials_of(setting, person) for person in range(1, setting.others + 1)]
    return [learn(each) for each in zip(*people, strict=True)] if people else []


def _trials_of(setting, person):
    """The answers of somebody before each of the learners, over the same entries."""
    luck = Luck(setting, person)
    room = Room(replace(setting, others=0), luck, "rule s")
    trials = [[] for _ in setting.seeds]
    for day in range(setting.days):
        asked, right = room.session(day, OTHERS_MINUTES[person % len(OTHERS_MINUTES)], setting.days - day, 1)
        for learner, entry in zip(*np.nonzero(asked), strict=True):
            trials[learner].append(Trial(str(entry), day, bool(right[learner, entry]), setting.lucky))
    return trials


class Room:
    """The learners, their schedule and what is believed of them."""

    def __init__(self, setting, luck, policy):
        shape = luck.traits.shape
        self.setting, self.luck, self.policy = setting, luck, policy
        self.world = WORLDS[setting.world](luck.traits)
        self.memories = plainly.Memories(shape)
        self.beliefs = None
        if policy == "ours":
            self.beliefs = Beliefs(shape, setting.lucky, told(replace(setting, minutes=0, long=False)))
        self.by_gain = 0.0
        for before in KNOWN_FOR:
            self.world.study(luck.known, luck.known, -before * setting.pace)

    def recall(self, day):
        """Mean recall by learner."""
        return self.world.recall(day * self.setting.pace).mean(1)

    def session(self, day, minutes, left, step):
        """One session of everybody, `left` with it, `step` days apart: what each was asked, and what would be right."""
        u, guess, missing, shuffle = self.luck.session(self.setting.entries)
        recall = self.world.recall(day * self.setting.pace)
        recalled = u < recall
        right = recalled | (guess < self.setting.lucky)
        scores = self._scores(day, minutes, left, step, shuffle)
        asked = chosen(scores, np.where(right, SECONDS_RIGHT, SECONDS_WRONG), minutes * 60)
        asked &= (missing >= self.setting.missed)[:, None]
        if self.beliefs:
            self.beliefs.study(asked, right, day)
        self.world.study(asked, recalled, day * self.setting.pace)
        self.memories.study(asked, quality(recall, recalled, right), day)
        return asked, right

    def _scores(self, day, minutes, left, step, shuffle):
        exam = day + left if step == 1 else None  # the weekly sessions have no exam ahead
        if self.policy == "rule s" and self.setting.long:
            exam = self.setting.days + WEEKS * WEEK  # as published: the far test is the only one
        if self.policy == "random":
            return shuffle
        if self.policy == "plain":
            return plainly.order(self.memories, day, None)
        scores = plainly.order(self.memories, day, exam)
        return scores if self.policy == "rule s" else self._by_gain(scores, day, minutes, left, step)

    def _by_gain(self, scores, day, minutes, left, step):
        """The plain order, and that by gain for the learners of whom enough is known."""
        beliefs, weights = self.beliefs, self.beliefs.weights()
        each = zip(weights.tolist(), beliefs.predictions, beliefs.priors, strict=True)
        known = np.array([trusted(row, own, prior.predictions) for row, own, prior in each])
        if not known.any():
            return scores
        self.by_gain += known.mean()
        price = price_of(minutes * 60 / step / self.setting.entries, known=self.setting.others > 0)
        time = Time(day, left, step, price)
        scores[known] = gaining.gains(beliefs, np.nonzero(known)[0], weights[known], time)
        return scores


def chosen(scores, seconds, budget):
    """Who is asked what: the highest scores first, until too little of the time is left. Never -inf."""
    order = np.argsort(-scores, 1, kind="stable")
    sorted_seconds = np.take_along_axis(seconds, order, 1)
    before = np.cumsum(sorted_seconds, 1) - sorted_seconds
    taken = (before <= budget - LEAST_SECONDS) & np.isfinite(np.take_along_axis(scores, order, 1))
    asked = np.zeros(scores.shape, bool)
    np.put_along_axis(asked, order, taken, 1)
    return asked


def quality(recall, recalled, right):
    """How well it went, 0 to 5: a lucky guess is 3, as it looks like a hesitant answer."""
    good = np.where(recall > 0.9, 5, np.where(recall > 0.6, 4, 3))
    bad = np.where(recall > 0.3, 2, 1)
    return np.where(recalled, good, np.where(right, 3, bad))


__all__ = ["POLICIES", "Outcome", "Setting", "run"]
