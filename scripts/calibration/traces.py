"""Invented learners of another kind than the estimate assumes: a memory for each item, fading as a power of time.

What was learnt in a course left one trace of every item; each answer, with its explanation, adds one (Pavlik and
Anderson 2005, constants from memory, see `quizzer.recall.forgetting`). The log odds of recall are the strength of an
item over its noise, and the ability for its topic less its difficulty, times how well it discriminates (two parameters
an item, the same for all people). People differ in ability (standard deviation .9), from topic to topic (.6) and in how
fast traces fade. Practice is clustered: one to three sittings on a topic before the next, six answers in ten are
repeats. A mock draws each section from all the entries of the bank that it may take, met or not.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.listing import Listed
from scripts.calibration.learners import GUESS, TODAY, Learner, Sat

REPEATS = 0.6
_DAY, _NOISE, _SCALE, _STRENGTH = (
    2160.0,
    0.255,
    0.217,
    0.4946,
)  # model seconds in a day; noise, growth of decay, threshold
_SOONEST = 0.02  # of a day, between two answers of one sitting


class People(NamedTuple):
    """Answers a topic, the decay of a first trace, the days of practice, ability, spread of the logarithm of decays.

    The course ended between a tenth of those days and a little more than all of them before the practice began; from
    then the average item of the average learner is recalled half the time when 1.2 times those days have gone by.
    """

    answers: int
    decay: float = 0.177
    days: int = 50
    ability: float = 0.0
    spread: float = 0.3


class Items:
    """The entries of the bank with their difficulties, drawn once, and what each section may take."""

    def __init__(self, listed: tuple[Listed, ...], plan: Blueprint, dice: np.random.Generator) -> None:
        self.ids = [entry.id for entry in listed]
        self.sections = [
            (
                section.questions,
                np.array([at for at, entry in enumerate(listed) if section.wants(entry.id, entry.safety_critical)]),
            )
            for section in plan.sections
        ]
        able = sorted({int(at) for _, members in self.sections for at in members})
        folders = sorted({listed[at].topic for at in able})
        self.topic = np.array([folders.index(e.topic) if e.topic in folders else 0 for e in listed])
        self.by_topic = [[at for at in able if self.topic[at] == topic] for topic in range(len(folders))]
        self.difficulty = dice.standard_normal(len(listed))
        self.slope = np.exp(0.3 * dice.standard_normal(len(listed)))


def learner(items: Items, people: People, days: tuple[int, ...], dice: np.random.Generator) -> Learner:
    """One learner, drawn, who sits a mock so many days from today."""
    head = _Head(items, people, dice)
    practice = []
    for at, day in _practice(items, people, dice):
        right = int(dice.random() < GUESS + (1 - GUESS) * head.recall(at, day))
        practice.append(Sat(items.ids[at], int(day), right))
        head.met(at, day)
    marks = {ahead: _mark(items, head, TODAY + 0.95 + ahead, dice) for ahead in days}
    return Learner(practice, marks)


class _Head:
    """What one learner remembers: traces of each item, strengths relative to the reference."""

    def __init__(self, items: Items, people: People, dice: np.random.Generator) -> None:
        self._decay = float(np.clip(people.decay * np.exp(people.spread * dice.standard_normal()), 0.05, 0.7))
        self._unit = (1.2 * people.days * _DAY) ** -self._decay
        ability = people.ability + 0.9 * dice.standard_normal() + 0.6 * dice.standard_normal(len(items.by_topic))
        self._logit = ability[items.topic] - items.difficulty
        self._slope = items.slope
        self._course = TODAY - people.days * float(dice.uniform(1.1, 2.2))
        self._traces: dict[int, list[tuple[float, float]]] = {}

    def recall(self, at: int, day: float) -> float:
        logit = self._slope[at] * (self._logit[at] + np.log(self._strength(at, day)) / _NOISE)
        return float(1 / (1 + np.exp(-logit)))

    def met(self, at: int, day: float) -> None:
        decay = self._decay + _SCALE * min(_STRENGTH * self._strength(at, day), 2.0)
        self._traces.setdefault(at, []).append((day, decay))

    def _strength(self, at: int, day: float) -> float:
        left = sum((max(day - laid, _SOONEST) * _DAY) ** -decay for laid, decay in self._traces.get(at, ()))
        return (((day - self._course) * _DAY) ** -self._decay + left) / self._unit


def _practice(items: Items, people: People, dice: np.random.Generator) -> list[tuple[int, float]]:
    """Items and days (with their hours) of the practice, oldest first."""
    wanted = int(dice.poisson(people.answers * 17))  # seventeen topics and sub-topics are named by the paper
    blocks: list[list[int]] = []
    met: list[list[int]] = [[] for _ in items.by_topic]
    while wanted > 0:
        topic = int(dice.integers(len(met)))
        for _ in range(int(dice.integers(1, 4))):
            size = min(wanted, int(dice.integers(3, 8)))
            wanted -= size
            blocks.append([_next_item(items.by_topic[topic], met[topic], dice) for _ in range(size)])
    end = TODAY - int(dice.integers(0, 11))
    starts = np.sort(dice.integers(TODAY - people.days + 1, end + 1, size=len(blocks)))
    rows = []
    for at, (day, block) in enumerate(zip(starts, blocks, strict=True)):
        rows += [(item, day + (at + n / 20) / (len(blocks) + 2)) for n, item in enumerate(block)]
    return rows


def _next_item(able: list[int], met: list[int], dice: np.random.Generator) -> int:
    if met and (dice.random() < REPEATS or len(met) == len(able)):
        return met[int(dice.integers(len(met)))]
    at = able[int(dice.integers(len(able)))]
    while at in met:
        at = able[int(dice.integers(len(able)))]
    met.append(at)
    return at


def _mark(items: Items, head: _Head, day: float, dice: np.random.Generator) -> int:
    asked = [at for questions, able in items.sections for at in dice.choice(able, questions, replace=False)]
    return sum(dice.random() < GUESS + (1 - GUESS) * head.recall(int(at), day) for at in asked)
