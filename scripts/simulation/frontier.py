"""The most that anybody can do who knows the world, but not beforehand how hard each entry is.

An entry is met on some day and then answered up to six times more, after gaps from a short list, as its own answers
so far advise: more of either raises the bound by less than 0.01 at up to 20 minutes a day for 300 entries. All such
histories stand in a tree; what is believed of the entry at each of its nodes is exact. With a price on every second of
every day the best advice is found backwards through the tree, and the prices are lowered (Kelley's cutting planes, a
linear programme each time) until the seconds spent are those there are: the value is then the bound of this family,
and a mixture of its policies attains it on the average. Difficulty is in nine classes.
"""

from functools import lru_cache

import highspy
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
from quizzer.recall.gain import SECONDS_RIGHT, SECONDS_WRONG
from scripts.simulation.learners import first_half_lives

GAPS = {"exponential": (1, 4, 9), "act-r": (1, 3, 7, 14)}
REVIEWS = {"exponential": 6, "act-r": 5}
KNOTS = np.array([1, 2, 3, 4, 6, 8, 11, 15, 20, 26, 33, 42])  # days left at which a price is free; between: lines
CLASSES = np.linspace(-2.4, 2.4, 9)
SHARES = np.exp(-(CLASSES**2) / 2) / np.exp(-(CLASSES**2) / 2).sum()
DEAREST, CLOSE, MOST_CUTS = 0.05, 0.001, 300


class _HalfLives:
    """Nodes of the tree in the first world: half-lives by class."""

    def __init__(self):
        self.hard = np.clip(6 + 2 * CLASSES, 1, 10)
        self.values = first_half_lives(self.hard)[None, :]

    def recall(self, days):
        return recall_by_half_life(days, self.values)

    def after(self, gaps):
        """The nodes a right and a wrong answer lead to, after each gap, and the recall then."""
        recalls = [self.recall(gap) for gap in gaps]
        pairs = [
            values
            for recall in recalls
            for values in (passed(self.values, self.hard, recall), failed(self.values, self.hard, recall))
        ]
        child = _HalfLives()
        child.values = np.stack(pairs, 1).reshape(-1, len(CLASSES))
        return child, recalls


class _Traces:
    """Nodes of the tree in the second world: days since each trace was laid, and its decay by class."""

    def __init__(self):
        self.scale = np.exp(0.65 + 0.35 * CLASSES)
        self.days = np.zeros((1, 1))
        self.decays = np.full((1, 1, len(CLASSES)), FIRST_DECAY)

    def strength(self, days):
        return self.scale * trace((self.days + days)[..., None], self.decays).sum(1)

    def recall(self, days):
        return recall_by_strength(self.strength(days))

    def after(self, gaps):
        """The nodes a right and a wrong answer lead to, after each gap, and the recall then."""
        child, days, decays = _Traces(), [], []
        strengths = [self.strength(gap) for gap in gaps]
        for gap, strength in zip(gaps, strengths, strict=True):
            days += [np.concatenate([self.days + gap, np.zeros((len(self.days), 1))], 1)] * 2
            decays += [np.concatenate([self.decays, decay_at(strength)[:, None]], 1)] * 2
        child.days = np.stack(days, 1).reshape(-1, days[0].shape[1])
        child.decays = np.stack(decays, 1).reshape(-1, *decays[0].shape[1:])
        return child, [recall_by_strength(strength) for strength in strengths]


NODES = {"exponential": _HalfLives, "act-r": _Traces}


class _Tree:
    """All histories: by level and node how likely, what stopping there is worth, and what the best advice is worth."""

    def __init__(self, world, days):
        self.days, self.gaps, self.reviews = days, GAPS[world], REVIEWS[world]
        self.likely, self.stop = [], []
        nodes, shares = NODES[world](), SHARES[None, :]
        for level in range(self.reviews + 1):
            left = range(1, days + 1)
            stop = [shares.sum(1), *((shares * nodes.recall(each)).sum(1) for each in left)]
            self.likely.append(shares.sum(1))
            self.stop.append(np.stack(stop, 1))
            if level < self.reviews:
                nodes, recalls = nodes.after(self.gaps)
                pairs = [each for recall in recalls for each in (shares * recall, shares * (1 - recall))]
                shares = np.stack(pairs, 1).reshape(-1, len(CLASSES))

    def best(self, price):
        """Recall on the exam day by the best way at these prices (by days left), and its seconds by days left."""
        values, choices = self.stop[-1], []
        for level in range(self.reviews - 1, -1, -1):
            values, choice = self._back(level, values, price)
            choices.insert(0, choice)
        starts = values[0] - price * SECONDS_WRONG
        start = int(starts[1:].argmax()) + 1
        if starts[start] <= 0:
            return 0.0, np.zeros(self.days + 1)
        seconds = self._seconds(start, choices)
        return float(starts[start] + price @ seconds), seconds

    def _seconds_of(self, level, place):
        right = self.likely[level + 1].reshape(-1, len(self.gaps), 2)[:, place, 0]
        return SECONDS_WRONG * self.likely[level] - (SECONDS_WRONG - SECONDS_RIGHT) * right

    def _back(self, level, after, price):
        best, choice = self.stop[level].copy(), np.full(self.stop[level].shape, -1, np.int8)
        children = after.reshape(len(best), len(self.gaps), 2, -1).sum(2)
        for place, gap in enumerate(self.gaps):
            reach = self.days + 1 - gap
            paid = price[1:reach] * self._seconds_of(level, place)[:, None]
            value = children[:, place, 1:reach] - paid
            better = value > best[:, gap + 1 :]
            best[:, gap + 1 :] = np.where(better, value, best[:, gap + 1 :])
            choice[:, gap + 1 :] = np.where(better, place, choice[:, gap + 1 :])
        return best, choice

    def _seconds(self, start, choices):
        seconds = np.zeros(self.days + 1)
        seconds[start] = SECONDS_WRONG
        nodes, left = np.array([0]), np.array([start])
        for level, choice in enumerate(choices):
            chosen = choice[nodes, left]
            for place, gap in enumerate(self.gaps):
                some = chosen == place
                np.add.at(seconds, left[some] - gap, self._seconds_of(level, place)[nodes[some]])
            going = chosen >= 0
            nodes, left, chosen = nodes[going], left[going], chosen[going].astype(int)
            first = (nodes * len(self.gaps) + chosen) * 2
            nodes, left = np.concatenate([first, first + 1]), np.tile(left - np.array(self.gaps)[chosen], 2)
        return seconds


@lru_cache(maxsize=1)
def _tree(world, days):
    return _Tree(world, days)


def frontier(world, minutes, entries=300, days=42):
    """Recall on the exam day that no policy of the family exceeds with so many minutes a day, within 0.001."""
    tree, there = _tree(world, days), minutes * 60 / entries
    lines = np.array([np.interp(np.arange(days + 1), KNOTS, row) for row in np.eye(len(KNOTS))])
    lines[:, 0] = 0.0
    solver = _master(there * lines.sum(1))
    prices, most = np.full(len(KNOTS), 0.004), np.inf
    for _ in range(MOST_CUTS):
        recall, seconds = tree.best(prices @ lines)
        most = min(most, recall + prices @ (lines @ (there - seconds)))
        solver.addRow(
            recall,
            highspy.kHighsInf,
            len(KNOTS) + 1,
            np.arange(len(KNOTS) + 1, dtype=np.int32),
            np.array([*(lines @ seconds), 1.0]),
        )
        solver.run()
        found = solver.getSolution().col_value
        if most - solver.getInfo().objective_function_value < CLOSE:
            break
        prices = 0.5 * prices + 0.5 * np.array(found[:-1])  # halfway: cutting planes swing else
    return most


class _Quiet(highspy.Highs):
    """The solver without callbacks: setting them up prints a banner, before any option can forbid it."""

    def enableCallbacks(self):  # noqa: N802  the library's name
        """None are wanted."""


def _master(there):
    """Prices and the value of one entry: what is paid for all seconds and what an entry is worth at least."""
    solver = _Quiet()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)  # as for papers: one process cannot run HiGHS with two counts of them
    for cost in there:
        solver.addVar(0.0, DEAREST)
        solver.changeColCost(solver.getNumCol() - 1, float(cost))
    solver.addVar(0.0, highspy.kHighsInf)
    solver.changeColCost(solver.getNumCol() - 1, 1.0)
    return solver
