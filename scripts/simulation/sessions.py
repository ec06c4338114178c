"""The program itself over simulated learners: its own `start` and `Session`, day by day, learner by learner."""

from dataclasses import replace
from functools import partial
from itertools import count

import numpy as np

from quizzer.question.replies import Reply
from quizzer.schedule import Confidence
from quizzer.schedule.fading import FADING
from quizzer.schedule.pacing import KNOWN_SECONDS, LINE_SECONDS, NEW_SECONDS
from quizzer.workflows.study.order_by_gain import gains_for
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World
from scripts.simulation.learners import KNOWN_FOR, WORLDS
from scripts.simulation.running import WEEK, WEEK_MINUTES, WEEKS, Luck, Outcome, kept_of, told
from scripts.simulation.standin import KEPT, NOBODY, START, Clock, Shelf, Store

REPEATED = 0.02  # days, half an hour, after which a repeat is asked
GAINS, PLAIN = "by gain", "plain rule"


def run(setting, policy, *, rules=True):
    """The outcome of the program: by gain where its gate lets it, or with its gate kept shut (`plain rule`)."""
    priors = told(replace(setting, minutes=0, long=False)) if setting.others else [None] * len(setting.seeds)
    lives = [
        Life(replace(setting, seeds=(seed,)), policy, prior, rules=rules)
        for seed, prior in zip(setting.seeds, priors, strict=True)
    ]
    ends = [life.live() for life in lives]
    exam, end = (np.array([each[at] for each in ends], float) for at in (0, 1))
    sessions = sum(life.sessions for life in lives)
    by_gain, idle, repeats = (sum(each) / sessions for each in zip(*(life.counts for life in lives), strict=True))
    return Outcome(exam, end if setting.long else None, by_gain, idle, repeats)


class Life:
    """One learner, what really goes on in their head, and their store."""

    def __init__(self, setting, policy, prior, *, rules):
        self.setting, self.luck = setting, Luck(setting)
        self.world = WORLDS[setting.world](self.luck.traits)
        self.pace = float(self.luck.pace[0, 0])
        for before in KNOWN_FOR:
            self.world.study(self.luck.known, self.luck.known, -before * self.pace)
        self.shelf = Shelf(setting.entries, rules=rules, guessed=setting.lucky > 0)
        self.place = {name: at for at, name in enumerate(self.shelf.names)}
        self.clock, ids, seeds = Clock(), count(1), count(1)
        self.at = World(Store(), self.shelf, self.clock, lambda: next(seeds), lambda: str(next(ids)))
        self.gains_by = partial(gains_for, told=prior) if policy == GAINS else lambda *_: None
        self.sessions, self.counts, self.fading = 0, (0, 0.0, 0), FADING

    def live(self):
        """Recall on the exam day, and at the end of the long road (or None)."""
        days = self.setting.days
        for day in range(days):
            self.session(day, self.setting.minutes, days)
        exam = self.recall(days)
        if not self.setting.long:
            return exam, None
        for week in range(WEEKS):
            self.session(days + week * WEEK, WEEK_MINUTES, None, KEPT)
        kept = self.world.recall((days + WEEKS * WEEK) * self.pace)[0][kept_of(self.setting.entries)]
        return exam, float(kept.mean())

    def recall(self, day):
        """Mean recall."""
        return float(self.world.recall(day * self.pace).mean())

    def session(self, day, minutes, exam, kept=()):
        """One session as a person has it; with topics that are `kept`, the weekly one."""
        drawn = self.luck.session(self.setting.entries)
        if not drawn.there[0]:
            return
        minutes *= float(drawn.length[0])
        recall = self.world.recall(day * self.pace)[0]
        recalled = (drawn.recall[0] < recall) & (drawn.slip[0] >= self.setting.slip)
        right = recalled | (drawn.guess[0] < self.setting.lucky)
        self.clock.to(day)
        trainee = NOBODY._replace(exam=None if exam is None else (START.date().fromordinal(START.toordinal() + exam)))
        wishes = {"gains_by": self.gains_by, "fading": self.fading, "keep": bool(kept)}
        session, today = start(self.at, trainee, kept, Limits(minutes, None), **wishes)
        asked, again = self._ask_all(session, recall, recalled, right)
        self.world.study(asked[None], recalled[None], day * self.pace)
        self.world.study(again[None], again[None], (day + REPEATED) * self.pace)
        self.ended(session, minutes)
        self.sessions += 1
        more = today.by_gain, max(0.0, minutes - session.minutes()), int(again.sum())
        self.counts = tuple(was + new for was, new in zip(self.counts, more, strict=True))

    def _ask_all(self, session, recall, recalled, right):
        asked, again = np.zeros(len(right), bool), np.zeros(len(right), bool)
        while question := session.next_question():
            at = self.place[question.question.id]
            good = self.good(question, right[at])
            usual = KNOWN_SECONDS if good else NEW_SECONDS
            self.clock.forward(LINE_SECONDS if question.lines else usual)
            session.answer(question, reply_of(question.question, good), self._sure(recall[at], recalled[at], good))
            (again if question.drill else asked)[at] = True
        return asked, again

    def good(self, question, known):
        """Whether an answer is right: what is asked once more is known by then."""
        return bool(question.drill or known)

    def ended(self, session, minutes):
        """Look at a session that is over."""

    def _sure(self, recall, recalled, good):
        """Certain of what is well known, fairly sure of what is known, else guessing."""
        if self.setting.certain or (recalled and recall > 0.9):
            return Confidence.CERTAIN
        return Confidence.FAIRLY_SURE if recalled or not good else Confidence.GUESSING


def reply_of(question, good):
    """A right or a wrong reply."""
    if good:
        return Reply(question.key, question.answer.value if question.answer else 0.0)
    if question.kind == "order":
        return Reply(question.key[::-1])
    if question.kind == "number":
        return Reply("wrong", -1e9)
    return Reply(next(option.label for option in question.options if option.label != question.key))
