"""Answers followed through the two models of forgetting, in arrays: every pair of a person and an entry at once.

First every first meeting of a person with an entry is worked through, then every second one, and so on; pairs do not
touch each other, so that later answers can follow in rounds of their own. Arrays have the paces first, then the pairs,
and the classes of difficulty or ability last.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, Final

from quizzer.recall.forgetting import (
    DAY,
    FIRST_DECAY,
    decay_at,
    failed,
    first_half_life,
    passed,
    recall_by_half_life,
    recall_by_strength,
    truly_recalled,
)
from quizzer.values import NamedTuple

DIFFICULTIES: Final = (2.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0)
# Of a bell curve with mean 6 and deviation 2, by nearest class.
DIFFICULTY_SHARES: Final = (0.0668, 0.1598, 0.1747, 0.1974, 0.1747, 0.1598, 0.0668)
ABILITIES: Final = (-0.05, 0.23, 0.475, 0.65, 0.825, 1.07, 1.35)
# Of a bell curve with mean 0.65 and deviation 0.35, by nearest class.
ABILITY_SHARES: Final = (0.0548, 0.1429, 0.2036, 0.1974, 0.2036, 0.1429, 0.0548)
LEAST_DAYS: Final = 0.04  # an hour: two answers of one day
SURPRISE: Final = 0.002  # no answer is thought quite impossible
SLIP: Final = 0.04  # of what is known, answered wrong all the same
KNOWN_BEFORE: Final = 7.0  # days since an entry that is known at first sight was last met, for want of better


class Attempt(NamedTuple):
    """One answer: the entry, the day (any count of days), whether it was right, the chance of guessing it."""

    entry: str
    day: float
    right: bool
    guess: float = 0.0


class Round(NamedTuple):
    """Answers of all who meet an entry for the n-th time: numbers of the pairs, days, right, chances of a guess.

    `at` is the number of each answer among all, in the order in which they were given.
    """

    pair: Any
    day: Any
    right: Any
    guess: Any
    at: Any


def rounds_of(people: Iterable[Sequence[Attempt]]) -> tuple[list[str], list[Round]]:
    """The entry of every pair, and the answers by how often the pair had met before; each person's oldest first."""
    import numpy as np

    names: list[str] = []
    pairs: list[int] = []
    met: list[int] = []  # by pair
    before: list[int] = []  # how often the pair of an answer had met
    all_trials: list[Attempt] = []
    for trials in people:
        own: dict[str, int] = {}
        for trial in trials:
            pair = own.get(trial.entry)
            if pair is None:
                pair = own[trial.entry] = len(names)
                names.append(trial.entry)
                met.append(0)
            pairs.append(pair)
            before.append(met[pair])
            met[pair] += 1
        all_trials += trials
    if not names:
        return [], []
    _, day, right, guess = map(np.array, zip(*all_trials, strict=True))
    order = np.argsort(before, kind="stable")
    columns = (np.array(pairs), day, right, guess, np.arange(len(pairs)))
    parts = (np.split(column[order], np.cumsum(np.bincount(before))[:-1]) for column in columns)
    return names, [Round(*each) for each in zip(*parts, strict=True)]


def right_chance(recall: Any, guess: Any) -> Any:
    """The chance of a right answer at a chance of recall: known and no slip made, or guessed."""
    return SURPRISE / 2 + (1 - SURPRISE) * ((1 - SLIP) * recall + guess * (1 - recall))


class HalfLives:
    """Every pair in the first model, by class of difficulty."""

    def __init__(self, paces: Sequence[float]) -> None:
        import numpy as np

        self._pace = np.array(paces)[:, None, None]
        self._hard = np.array(DIFFICULTIES)
        self.values = np.zeros((len(paces), 0, len(DIFFICULTIES)))
        self.last = np.zeros(0)

    def meet(self, first: Round) -> None:
        """Add pairs that meet for the first time, behind those there are."""
        import numpy as np

        fresh = np.array([first_half_life(difficulty) for difficulty in DIFFICULTIES])
        known = first.right & (first.guess == 0)
        start = np.where(known[:, None], passed(fresh, self._hard, 0.5), fresh)
        self.values = np.concatenate([self.values, np.repeat(start[None], len(self._pace), 0)], 1)
        self.last = np.concatenate([self.last, first.day])

    def standing(self, now: Round) -> Any:
        """How the memory of each answer stands, by pace and class: in this model the chance of recall."""
        import numpy as np

        days = np.maximum(now.day - self.last[now.pair], LEAST_DAYS)
        return recall_by_half_life(self._pace * days[:, None], self.values[:, now.pair])

    def recall(self, standing: Any) -> Any:
        """The chance of recall."""
        return standing

    def study(self, now: Round, standing: Any) -> None:
        """What the answers change. One that may have been a guess, or a slip, changes the half-life in part."""
        import numpy as np

        recall, before, guess = standing, self.values[:, now.pair], now.guess[:, None]
        slip = recall * SLIP / (recall * SLIP + (1 - recall) * (1 - guess) + SURPRISE)
        known = np.where(now.right[:, None], truly_recalled(recall, guess), slip)
        up, down = passed(before, self._hard, recall), failed(before, self._hard, recall)
        self.values[:, now.pair] = np.exp(known * np.log(up) + (1 - known) * np.log(down))
        self.last[now.pair] = now.day


class Traces:
    """Every pair in the second model, by class of ability; a trace not laid yet lies infinitely far back.

    There is room for so many meetings of a pair, and for more as soon as one has more.
    """

    def __init__(self, paces: Sequence[float], meetings: int) -> None:
        import numpy as np

        self._pace = np.array(paces)
        self._gift = np.exp(np.array(ABILITIES))
        self.laid = np.zeros((len(paces), 0, 1 + meetings))
        self.decays = np.zeros((*self.laid.shape, len(ABILITIES)))
        self._next = np.zeros(0, int)  # by pair

    def meet(self, first: Round) -> None:
        """Add pairs that meet for the first time, behind those there are."""
        import numpy as np

        before = len(self._next)
        self._make_room(len(first.pair), 0)
        known = first.right & (first.guess == 0)
        self.laid[:, before:][:, known, 0] = first.day[known] - KNOWN_BEFORE / self._pace[:, None]
        self.laid[:, before:, 1] = first.day
        self._next = np.concatenate([self._next, np.full(len(first.pair), 2)])

    def _make_room(self, pairs: int, traces: int) -> None:
        """For so many more pairs, and so many more traces of each."""
        import numpy as np

        more = (0, 0), (0, pairs), (0, traces)
        self.laid = np.pad(self.laid, more, constant_values=-np.inf)
        self.decays = np.pad(self.decays, (*more, (0, 0)), constant_values=FIRST_DECAY)

    def standing(self, now: Round) -> Any:
        """How the memory of each answer stands, by pace and class: in this model its strength."""
        import numpy as np

        most = int(self._next[now.pair].max())
        days = np.maximum(now.day[:, None] - self.laid[:, now.pair, :most], LEAST_DAYS)
        logs = np.log(days * self._pace[:, None, None] * DAY)[..., None]
        return self._gift * np.exp(-self.decays[:, now.pair, :most] * logs).sum(2)

    def recall(self, standing: Any) -> Any:
        """The chance of recall."""
        return recall_by_strength(standing)

    def study(self, now: Round, standing: Any) -> None:
        """What the answers leave: a trace each, as a failure leaves the same."""
        at = self._next[now.pair]
        if at.max() == self.laid.shape[2]:
            self._make_room(0, 1)
        self.decays[:, now.pair, at] = decay_at(standing)
        self.laid[:, now.pair, at] = now.day
        self._next[now.pair] += 1


class Followed:
    """All answers under one model at some paces, by pace first.

    `told` is the logarithm of what each pair's answers tell of its classes, `chances` what was thought of each answer
    followed last that was no first sight, in the order of the rounds; `right` and `at` say what came of it and where
    it stands.
    """

    def __init__(self, model: HalfLives | Traces, paces: int, classes: int) -> None:
        import numpy as np

        self.model = model
        self.told = np.zeros((paces, 0, classes))
        self._logs = np.zeros((0, classes))

    def follow(self, first: Round, shares: Any, later: Sequence[Round]) -> None:
        """Follow the answers of pairs that meet for the first time, of these shares (of each pair or all), and others.

        A round of the others has no pair twice.
        """
        import numpy as np

        wide = (len(first.pair), self._logs.shape[1])
        self._logs = np.concatenate([self._logs, np.broadcast_to(np.log(np.array(shares)), wide)])
        self.told = np.concatenate([self.told, np.zeros((len(self.told), *wide))], 1)
        self.model.meet(first)
        self.chances = np.concatenate([np.zeros((len(self.told), 0)), *map(self._answered, later)], 1)
        self.right = np.concatenate([np.zeros(0, bool), *(now.right for now in later)])
        self.at = np.concatenate([np.zeros(0, int), *(now.at for now in later)])
        self.shares = shares_of(self._logs + self.told)

    def _answered(self, now: Round) -> Any:
        """Learn from a round of answers; what was thought of each before."""
        import numpy as np

        standing = self.model.standing(now)
        chance = right_chance(self.model.recall(standing), now.guess[:, None])
        before = shares_of(self._logs[now.pair] + self.told[:, now.pair])
        self.told[:, now.pair] += np.log(np.where(now.right[:, None], chance, 1 - chance))
        self.model.study(now, standing)
        return (before * chance).sum(-1)


def shares_of(logs: Any) -> Any:
    """Shares that add up to 1, of their logarithms up to a constant."""
    import numpy as np

    parts = np.exp(logs - logs.max(-1, keepdims=True))
    return parts / parts.sum(-1, keepdims=True)
