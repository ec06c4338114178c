"""Many learners through the same days: every learner is a seed, and all policies meet the same entries and luck."""

from dataclasses import dataclass
from functools import cache

import numpy as np
from simulation import gaining, plainly
from simulation.believing import Beliefs, HalfLives
from simulation.learners import KNOWN_FOR, WORLDS

from quizzer.schedule.gain import SECONDS_RIGHT, SECONDS_WRONG, Course, price_of
from quizzer.schedule.half_life_gain import ahead
from quizzer.schedule.trust import leading, trusted

POLICIES = ("random", "plain", "rule s", "ours")
TOLD = "told"  # ours, told the world from the first day: the difficulty of the entries must still be found out
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


@dataclass(frozen=True)
class Outcome:
    """Mean recall by learner on the exam day and, if it was long, at the end; the share of sessions by gain."""

    exam: np.ndarray
    end: np.ndarray | None
    by_gain: float


class Luck:
    """The dice of the learners, the same for each policy."""

    def __init__(self, setting):
        self._dice = [np.random.default_rng([seed, 42]) for seed in setting.seeds]
        count, topics = setting.entries, -(-setting.entries // 15)
        own = self._each(lambda dice: dice.normal(size=count))
        shared = self._each(lambda dice: dice.normal(size=topics))[:, np.arange(count) // 15]
        self.traits = np.sqrt(1 - setting.topics) * own + np.sqrt(setting.topics) * shared
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


class Room:
    """The learners, their schedule and what is believed of them."""

    def __init__(self, setting, luck, policy):
        shape = luck.traits.shape
        self.setting, self.luck, self.policy = setting, luck, policy
        self.world = WORLDS[setting.world](luck.traits)
        self.memories = plainly.Memories(shape)
        self.beliefs = Beliefs(shape, setting.lucky) if policy in ("ours", TOLD) else None
        self.by_gain = 0.0
        for before in KNOWN_FOR:
            self.world.study(luck.known, luck.known, -before * setting.pace)

    def recall(self, day):
        """Mean recall by learner."""
        return self.world.recall(day * self.setting.pace).mean(1)

    def session(self, day, minutes, left, step):
        """One session of everybody, `left` with it, `step` days apart."""
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

    def _scores(self, day, minutes, left, step, shuffle):
        exam = day + left if step == 1 else None  # rule s is for an exam soon, and the weekly sessions have none
        if self.policy == "random":
            return shuffle
        if self.policy == "plain":
            return plainly.order(self.memories, day, None)
        scores = plainly.order(self.memories, day, exam)
        return scores if self.policy == "rule s" else self._by_gain(scores, day, minutes, left, step)

    def _by_gain(self, scores, day, minutes, left, step):
        """The plain order, and that by gain for the learners of whom enough is known."""
        weights = self._told() if self.policy == TOLD else self.beliefs.weights()
        known = [
            at
            for at, row in enumerate(weights)
            if self.policy == TOLD or trusted(row.tolist(), self.beliefs.predictions[at])
        ]
        self.by_gain += len(known) / len(scores)
        leads = np.array([leading(weights[at].tolist()) for at in known], int)
        price = price_of(minutes * 60 / step / self.setting.entries)
        for place in sorted(set(leads.tolist())):
            model = self.beliefs.models[place]
            learners = np.array(known)[leads == place]
            course = Course(left, step, model.pace, price)
            whole = table(course._replace(sessions=max(left, 42))) if isinstance(model, HalfLives) else None
            scores[learners] = gaining.gains(self.beliefs, model, learners, day, course, whole)
        return scores

    def _told(self):
        """All the weight on the world's own model, at the published pace."""
        weights = np.zeros((len(self.beliefs.met), len(self.beliefs.models)))
        weights[:, 1 if self.setting.world == "exponential" else 4] = 1.0
        return weights


@cache
def table(course):
    """`ahead`, once: the values for fewer sessions are its first rows."""
    return ahead(course)


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


__all__ = ["POLICIES", "TOLD", "Outcome", "Setting", "run"]
