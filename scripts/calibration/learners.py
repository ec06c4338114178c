"""Invented learners of the kind that the estimate assumes: recall by topic, halving in a number of days.

A learner has an ability (standard deviation 1) and one of each topic around it (0.8); an item has its difficulty (1),
and no item is met twice. Practice of a topic comes in sittings of about three answers; the last was 0 to 40 days ago,
and between two lie 1 to 40 days. Each sitting restores the topic; between them recall halves
in the learner's half-life.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from quizzer.bank.blueprints import Blueprint, SectionPlan
from quizzer.bankfiles.listing import Listed

TOPICS, QUESTIONS, GUESS = 20, 60, 0.25
TODAY = 740_000  # a day, as dates count them
NAMES = tuple(f"topic-{at:02}" for at in range(TOPICS))
BANK = tuple(Listed(f"{name}/mock/{at}", name, False) for name in NAMES for at in range(50))


class Sat(NamedTuple):
    """One answer: the entry, the day, right (1) or not."""

    entry: str
    day: int
    right: int


class Learner(NamedTuple):
    """Practice, oldest first, and the marks of mocks sat on the days after it."""

    practice: list[Sat]
    marks: dict[int, int]


class People(NamedTuple):
    """Answers a topic, the middle half-life in days, how far people differ in it (of its logarithm), mean ability."""

    answers: int
    half_life: float = 60.0
    spread: float = 0.0
    ability: float = 0.0


def paper() -> Blueprint:
    """Three questions from each topic."""
    sections = tuple(
        SectionPlan(name, name, (name,), QUESTIONS // TOPICS, {}, (0, QUESTIONS), False, False) for name in NAMES
    )
    return Blueprint("even", "Even", 120, 36, (), sections)


def learner(people: People, days: tuple[int, ...], dice: np.random.Generator) -> Learner:
    """One learner, drawn, who sits a mock so many days from today."""
    half_life = people.half_life * np.exp(people.spread * dice.standard_normal())
    ability = people.ability + dice.standard_normal() + 0.8 * dice.standard_normal(TOPICS)
    topics, on, gaps = practice(people.answers, dice)
    right = answered(ability[topics], gaps, half_life, dice)
    last = np.full(TOPICS, 0)
    np.maximum.at(last, topics, on)
    asked = np.arange(QUESTIONS) % TOPICS
    rested = np.where(last > 0, TODAY - last, 20)[asked]
    marks = {ahead: int(answered(ability[asked], rested + ahead, half_life, dice).sum()) for ahead in days}
    rows = sorted(zip(on, range(len(on)), topics, right, strict=True))
    return Learner([Sat(f"{NAMES[topic]}/practice/{n}", int(day), int(hit)) for day, n, topic, hit in rows], marks)


def practice(mean: int, dice: np.random.Generator) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Topic, day and days since the topic's last answer, for every answer; `mean` answers a topic on the average."""
    rows = []
    for topic in range(TOPICS):
        many = int(dice.poisson(mean))
        sitting = max(1, round(many / 3)) if mean > 2 else many
        of = np.sort(np.arange(many) % max(1, sitting))
        between = dice.integers(1, 41, size=max(1, sitting))
        ends = TODAY - dice.integers(0, 41) - np.concatenate([np.cumsum(between[1:])[::-1], [0]])
        day = ends[of] if many else np.zeros(0, dtype=int)
        gap = np.diff(day, prepend=day[:1])
        rows.append((np.full(many, topic), day, gap))
    return tuple(np.concatenate(column) for column in zip(*rows, strict=True))


def answered(ability: np.ndarray, gaps: np.ndarray, half_life: float, dice: np.random.Generator) -> np.ndarray:
    """Right (1) or not for each question, its difficulty and luck drawn."""
    recall = 1 / (1 + np.exp(-(ability - dice.standard_normal(len(ability)))))
    chance = GUESS + (1 - GUESS) * recall * 2.0 ** (-gaps / half_life)
    return (dice.random(len(ability)) < chance).astype(int)
