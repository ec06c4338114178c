"""The reference rules over many learners at once, and what all policies share: the setting, the dice, the outcome."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from quizzer.recall.following import Attempt
from quizzer.recall.others import learn
from quizzer.schedule.pacing import KNOWN_SECONDS, NEW_SECONDS
from quizzer.workflows.study import order_by_gain as gaining
from scripts.simulation import plainly
from scripts.simulation.learners import KNOWN_FOR, WORLDS
from scripts.simulation.standin import KEPT, names_of

POLICIES = ("random", "plain", "rule s")
FIRST = gaining.FIRST  # answers of each of the others that are looked at
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
    slip: float = 0.0  # of what is recalled, answered wrong all the same
    differ: bool = False  # people forget half to twice as fast, and differ in ability
    irregular: bool = False  # half of the days, of half to twice the minutes
    certain: bool = False  # says "certain" of everything
    unrelated: bool = False  # others for whom other entries are hard
    long: bool = False  # 18 months of a short weekly session behind the exam, in the topics that are kept alive
    others: int = 0  # who studied the same entries before, by rule s; ours learns from them


@dataclass(frozen=True)
class Outcome:
    """Mean recall by learner on the exam day and, if it was long, at the end; the share of sessions by gain.

    Besides, the minutes left idle and the repeats of a session, on the average.
    """

    exam: np.ndarray
    end: np.ndarray | None
    by_gain: float = 0.0
    idle: float = 0.0
    repeats: float = 0.0


@dataclass(frozen=True)
class Drawn:
    """The dice of a session: by learner and entry, and by learner whether they are there and for how long."""

    recall: np.ndarray
    guess: np.ndarray
    slip: np.ndarray
    shuffle: np.ndarray
    there: np.ndarray
    length: np.ndarray


class Luck:
    """The dice of the learners, the same for each policy; those of somebody else over the same entries by `person`."""

    def __init__(self, setting, person=0):
        self.setting = setting
        self._dice = [np.random.default_rng([seed, 42]) for seed in setting.seeds]
        count, topics = setting.entries, -(-setting.entries // 15)
        own = self._each(lambda dice: dice.normal(size=count))
        shared = self._each(lambda dice: dice.normal(size=topics))[:, np.arange(count) // 15]
        self.traits = np.sqrt(1 - setting.topics) * own + np.sqrt(setting.topics) * shared
        if person:
            self._dice = [np.random.default_rng([seed, 43, person]) for seed in setting.seeds]
            if setting.unrelated:
                self.traits = self._each(lambda dice: dice.normal(size=count))
        self.known = self._each(lambda dice: dice.random(count)) < setting.known
        self.pace = np.full((len(setting.seeds), 1), setting.pace)
        if setting.differ:
            self.pace = self.pace * 2.0 ** self._each(lambda dice: dice.uniform(-1, 1, 1))
            self.traits = self.traits + self._each(lambda dice: 0.5 * dice.normal(size=1))

    def _each(self, draw):
        return np.stack([draw(dice) for dice in self._dice])

    def session(self, count):
        """The numbers of one session."""
        drawn = self._each(lambda dice: dice.random((5, count)))
        there, length = drawn[:, 2, 0] >= self.setting.missed, np.ones(len(drawn))
        if self.setting.irregular:
            there, length = drawn[:, 2, 1] < 0.5, 2.0 ** (2 * drawn[:, 2, 2] - 1)
        return Drawn(drawn[:, 0], drawn[:, 1], drawn[:, 4], drawn[:, 3], there, length)


def kept_of(count):
    """Which of so many entries the weekly sessions keep alive, as the program keeps a few topics."""
    return np.array([name.startswith(tuple(f"{topic}/" for topic in KEPT)) for name in names_of(count)])


def run(setting, policy):
    """The outcome of a reference policy."""
    room = Room(setting, Luck(setting), policy)
    for day in range(setting.days):
        room.session(day, setting.minutes, setting.days - day, 1)
    exam = room.recall(setting.days)
    if not setting.long:
        return Outcome(exam, None)
    for week in range(WEEKS):
        room.session(setting.days + week * WEEK, WEEK_MINUTES, WEEKS - week, WEEK)
    return Outcome(exam, room.kept(setting.days + WEEKS * WEEK))


@lru_cache(maxsize=4)
def told(setting):
    """What the others' answers tell each learner."""
    people = [_trials_of(setting, person) for person in range(1, setting.others + 1)]
    return [learn([trials[:FIRST] for trials in each]) for each in zip(*people, strict=True)] if people else []


def _trials_of(setting, person):
    """The answers of somebody before each of the learners, over the same entries."""
    luck = Luck(setting, person)
    room = Room(replace(setting, others=0), luck, "rule s")
    trials, names = [[] for _ in setting.seeds], names_of(setting.entries)
    for day in range(setting.days):
        asked, right = room.session(day, OTHERS_MINUTES[person % len(OTHERS_MINUTES)], setting.days - day, 1)
        for learner, entry in zip(*np.nonzero(asked), strict=True):
            trials[learner].append(Attempt(names[entry], day, bool(right[learner, entry]), setting.lucky))
    return trials


class Room:
    """The learners and their schedule."""

    def __init__(self, setting, luck, policy):
        self.setting, self.luck, self.policy = setting, luck, policy
        self.world = WORLDS[setting.world](luck.traits)
        self.memories = plainly.Memories(luck.traits.shape)
        for before in KNOWN_FOR:
            self.world.study(luck.known, luck.known, -before * self.luck.pace)

    def recall(self, day):
        """Mean recall by learner."""
        return self.world.recall(day * self.luck.pace).mean(1)

    def kept(self, day):
        """Mean recall by learner of what the weekly sessions keep alive."""
        return self.world.recall(day * self.luck.pace)[:, kept_of(self.setting.entries)].mean(1)

    def session(self, day, minutes, left, step):
        """One session of everybody, `left` with it, `step` days apart: what each was asked, and what would be right."""
        drawn = self.luck.session(self.setting.entries)
        recall = self.world.recall(day * self.luck.pace)
        recalled = (drawn.recall < recall) & (drawn.slip >= self.setting.slip)
        right = recalled | (drawn.guess < self.setting.lucky)
        scores = self._scores(day, left, step, drawn.shuffle)
        if step == WEEK:
            scores = np.where(kept_of(self.setting.entries), scores, -np.inf)
        budget = minutes * 60 * drawn.length[:, None]
        asked = chosen(scores, np.where(right, KNOWN_SECONDS, NEW_SECONDS), budget)
        asked &= drawn.there[:, None]
        self.world.study(asked, recalled, day * self.luck.pace)
        self.memories.study(asked, quality(recall, recalled, right), day)
        return asked, right

    def _scores(self, day, left, step, shuffle):
        exam = day + left if step == 1 else None  # the weekly sessions have no exam ahead
        if self.policy == "rule s" and self.setting.long:
            exam = self.setting.days + WEEKS * WEEK  # as published: the far test is the only one
        if self.policy == "random":
            return shuffle
        return plainly.order(self.memories, day, None if self.policy == "plain" else exam)


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
