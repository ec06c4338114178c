"""Invented learners: twenty topics, practice up to forty days old, then a mock of sixty questions with four options.

A learner has an ability (standard deviation 1) and one of each topic around it (0.8); an item has its difficulty (1).
Practice of a topic comes in sittings of about three answers; the last was 0 to 40 days ago, and between two lie
1 to 40 days. Each sitting restores the topic; between them recall halves in the learner's half-life.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

TOPICS, QUESTIONS, GUESS = 20, 60, 0.25
TODAY = 740_000  # a day, as dates count them


class Learner(NamedTuple):
    """Practice (topic, day, right), and what the mock then brought: topic and right or not, question by question."""

    topics: np.ndarray
    days: np.ndarray
    right: np.ndarray
    mock_topics: np.ndarray
    mock_right: np.ndarray


class World(NamedTuple):
    """Answers a topic, the middle half-life in days, and how far people differ in it (of its logarithm)."""

    answers: int
    half_life: float = 60.0
    spread: float = 0.0


def learner(world: World, dice: np.random.Generator) -> Learner:
    """One learner, drawn."""
    half_life = world.half_life * np.exp(world.spread * dice.standard_normal())
    ability = dice.standard_normal() + 0.8 * dice.standard_normal(TOPICS)
    topics, days, gaps = practice(world.answers, dice)
    right = answered(ability[topics], gaps, half_life, dice)
    last = np.full(TOPICS, 0)
    np.maximum.at(last, topics, days)
    mock_topics = np.arange(QUESTIONS) % TOPICS
    rested = np.where(last > 0, TODAY - last, 20)[mock_topics]
    return Learner(topics, days, right, mock_topics, answered(ability[mock_topics], rested, half_life, dice))


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
