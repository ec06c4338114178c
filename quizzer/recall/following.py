"""Answers followed through the two models of forgetting, in arrays: every pair of a person and an entry at once.

First every first meeting of a person with an entry is worked through, then every second one, and so on. Arrays have
the paces first, then the pairs, and the classes of difficulty or ability last.
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

    def __init__(self, rounds: Sequence[Round], paces: Sequence[float]) -> None:
        import numpy as np

        first = rounds[0]
        self._pace = np.array(paces)[:, None, None]
        self._hard = np.array(DIFFICULTIES)
        fresh = np.array([first_half_life(difficulty) for difficulty in DIFFICULTIES])
        known = first.right & (first.guess == 0)
        start = np.where(known[:, None], passed(fresh, self._hard, 0.5), fresh)
        self.values = np.repeat(start[None], len(paces), 0)
        self.last = first.day.astype(float)

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
    """Every pair in the second model, by class of ability; a trace not laid yet lies infinitely far back."""

    def __init__(self, rounds: Sequence[Round], paces: Sequence[float]) -> None:
        import numpy as np

        first = rounds[0]
        shape = (len(first.pair), len(rounds) + 1)
        self._pace = np.array(paces)
        self._gift = np.exp(np.array(ABILITIES))
        self.laid = np.full((len(paces), *shape), -np.inf)
        self.decays = np.full((len(paces), *shape, len(ABILITIES)), FIRST_DECAY)
        known = first.right & (first.guess == 0)
        self.laid[:, known, 0] = first.day[known] - KNOWN_BEFORE / self._pace[:, None]
        self.laid[:, :, 1] = first.day
        self._next = 2

    def standing(self, now: Round) -> Any:
        """How the memory of each answer stands, by pace and class: in this model its strength."""
        import numpy as np

        days = np.maximum(now.day[:, None] - self.laid[:, now.pair, : self._next], LEAST_DAYS)
        logs = np.log(days * self._pace[:, None, None] * DAY)[..., None]
        return self._gift * np.exp(-self.decays[:, now.pair, : self._next] * logs).sum(2)

    def recall(self, standing: Any) -> Any:
        """The chance of recall."""
        return recall_by_strength(standing)

    def study(self, now: Round, standing: Any) -> None:
        """What the answers leave: a trace each, as a failure leaves the same."""
        self.decays[:, now.pair, self._next] = decay_at(standing)
        self.laid[:, now.pair, self._next] = now.day
        self._next += 1


class Followed:
    """All answers under one model at some paces, by pace first.

    `told` is the logarithm of what each pair's answers tell of its classes, `chances` what was thought of each answer
    that was no first sight, in the order of the rounds; `right` and `at` say what came of it and where it stands.
    """

    def __init__(self, model: HalfLives | Traces, shares: Any, rounds: Sequence[Round], paces: int) -> None:
        import numpy as np

        self.model = model
        logs = np.log(np.array(shares))
        self.told = np.zeros((paces, len(rounds[0].pair), logs.shape[-1]))
        chances = [np.zeros((paces, 0))]
        for now in rounds[1:]:
            standing = model.standing(now)
            chance = right_chance(model.recall(standing), now.guess[:, None])
            before = shares_of((logs if logs.ndim == 1 else logs[now.pair]) + self.told[:, now.pair])
            chances.append((before * chance).sum(-1))
            self.told[:, now.pair] += np.log(np.where(now.right[:, None], chance, 1 - chance))
            model.study(now, standing)
        self.chances = np.concatenate(chances, 1)
        self.right = np.concatenate([np.zeros(0, bool), *(now.right for now in rounds[1:])])
        self.at = np.concatenate([np.zeros(0, int), *(now.at for now in rounds[1:])])
        self.shares = shares_of(logs + self.told)


def shares_of(logs: Any) -> Any:
    """Shares that add up to 1, of their logarithms up to a constant."""
    import numpy as np

    parts = np.exp(logs - logs.max(-1, keepdims=True))
    return parts / parts.sum(-1, keepdims=True)
