"""How well the estimate is calibrated: one line for each world, with what is promised."""

from __future__ import annotations

import argparse
import sys
import time
from typing import NamedTuple

import numpy as np

from quizzer.insight.outlook import Part, outlook
from quizzer.insight.recall import Answers, half_life, known, shared
from scripts.calibration.learners import QUESTIONS, TODAY, TOPICS, Learner, World, learner

PAPER = [Part(QUESTIONS // TOPICS, [1.0 if at == topic else 0.0 for at in range(TOPICS)]) for topic in range(TOPICS)]


class Found(NamedTuple):
    """What one line found."""

    brier: float
    log_loss: float
    ece: float
    bias: float
    rmse: float
    cover: float
    half: float
    width: float
    pass_brier: float
    life: float


def answers_of(one: Learner) -> Answers:
    """A learner's practice as the estimator takes it."""
    order = np.argsort(one.days, kind="stable")
    columns = (one.topics[order], one.days[order], one.right[order], np.ones(len(order), dtype=int))
    return Answers(*columns)


def measured(world: World, learners: int, seed: int, others: int) -> Found:
    """The calibration over so many learners, with what the practice of `others` tells beforehand."""
    dice = np.random.default_rng([seed, world.answers, int(world.half_life)])
    beforehand = shared([answers_of(learner(world, dice)) for _ in range(others)], TOPICS, TODAY)
    chances, hits, rows = [], [], []
    for _ in range(learners):
        one = learner(world, dice)
        knowledge = known(answers_of(one), TOPICS, TODAY, beforehand)
        ahead = outlook(knowledge, 0)
        marks = ahead.marks(PAPER)
        by_topic = np.einsum("hc,khc->k", ahead.weights, ahead.mean)
        chances.append(by_topic[one.mock_topics])
        hits.append(one.mock_right)
        mark, (low, high), (inner, outer) = int(one.mock_right.sum()), marks.between(0.9), marks.between(0.5)
        rows.append((marks.mean - mark, low <= mark <= high, inner <= mark <= outer, high - low,
                     (marks.at_least(36) - (mark >= 36)) ** 2, half_life(knowledge)[0]))  # fmt: skip
    return found(np.concatenate(chances), np.concatenate(hits), np.array(rows, dtype=float))


def found(chance: np.ndarray, hit: np.ndarray, rows: np.ndarray) -> Found:
    """The measures over all questions and mocks."""
    middle = rows.mean(axis=0)
    loss = -np.where(hit, np.log(chance), np.log1p(-chance)).mean()
    return Found(float(((chance - hit) ** 2).mean()), float(loss), ece(chance, hit), middle[0],
                 float(np.sqrt((rows[:, 0] ** 2).mean())), *middle[1:4], middle[4], middle[5])  # fmt: skip


def ece(chance: np.ndarray, hit: np.ndarray) -> float:
    """The mean distance between what was said and what came, over ten bins of equal count."""
    bins = np.array_split(np.argsort(chance, kind="stable"), 10)
    return float(sum(len(one) * abs(chance[one].mean() - hit[one].mean()) for one in bins) / len(chance))


def kept(world: World, others: int, line: Found) -> bool:
    """Whether a line is within the promises; with nobody else an interval is allowed to be wider than it need be."""
    low, high = (0.85, 1.0) if world.answers == 2 else (0.87, 0.93 if others else 0.95)
    return line.ece <= 0.02 and low <= line.cover <= high and abs(line.bias) <= 0.5


# The world, and how many others forgetting and levels are learnt from; 0 as for somebody alone with a store.
LINES = (
    (World(2), 1500), (World(5), 1500), (World(15), 1500), (World(2), 0), (World(5), 0), (World(15), 0),
    (World(5), 200), (World(5, 30.0), 1500), (World(5, 120.0), 1500), (World(5, 60.0, 0.35), 1500),
    (World(5, 30.0), 0), (World(5, 120.0), 0), (World(15, 30.0), 0), (World(15, 120.0), 0),
)  # fmt: skip
PROMISED = 6  # the first lines are held to the promises; the others show how it holds elsewhere


def report(learners: int, seed: int) -> int:
    """Print the table; 1 when a promise is broken."""
    started = time.perf_counter()
    print(f"{learners} invented learners a line, {TOPICS} topics, a mock of {QUESTIONS}; forgetting is fitted.")
    print("answers  half-life  others   Brier  log loss   ECE   bias  RMSE  in 90 %  in 50 %  width  P(pass)")
    broken = 0
    for at, (world, others) in enumerate(LINES):
        line = measured(world, learners, seed, min(others, learners))
        word = ("kept" if kept(world, others, line) else "BROKEN") if at < PROMISED else ""
        broken += word == "BROKEN"
        many = str(min(others, learners)) if others else "nobody"
        life = f"{world.half_life:.0f} d" + (" varied" if world.spread else "")
        print(f"{world.answers:>7}  {life:<9}  {many:>6} {line.brier:6.3f}"
              f" {line.log_loss:9.3f} {line.ece:6.3f} {line.bias:+6.2f} {line.rmse:5.2f} {line.cover:8.3f}"
              f" {line.half:8.3f} {line.width:6.1f} {line.pass_brier:8.3f}  {word}  (H {line.life:.0f})",
              flush=True)  # fmt: skip
    print("nobody: nobody else in the store, so that how fast people there forget is not known beforehand.")
    print(
        f"promised for the first {PROMISED}: ECE at most 0.02, bias within 0.5, in 90 %: 0.87 to 0.93 (nobody: to 0.95;"
    )
    print("2 answers: 0.85 and up). A bias above 0 promises too much.")
    print(f"{time.perf_counter() - started:.0f} s")
    return int(broken > 0)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="scripts/calibrate", description=__doc__)
    parser.add_argument("--learners", type=int, default=1_500, metavar="N")
    parser.add_argument("--seed", type=int, default=20_261_125)
    wishes = parser.parse_args()
    sys.exit(report(max(2, wishes.learners), wishes.seed))
