"""What other people's answers to the same entries tell of one who has answered little: how hard each entry is.

All answers go through the two models of `belief.py` at the published pace, at once: first every first meeting of a
person with an entry, then every second one, and so on. What the classes of an entry gain or lose is added up over the
people, and counts a little less than one's own answers would, as people differ.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, Final, NamedTuple

from quizzer.insight.belief import (
    ABILITIES,
    ABILITY_SHARES,
    DIFFICULTIES,
    DIFFICULTY_SHARES,
    KNOWN_BEFORE,
    LEAST_DAYS,
    NOBODY,
    Prediction,
    Prior,
    Trial,
    right_chance,
)
from quizzer.insight.forgetting import (
    FIRST_DECAY,
    decay_at,
    failed,
    first_half_life,
    passed,
    passed_perhaps,
    recall_by_half_life,
    recall_by_strength,
    trace,
)

COUNT: Final = 0.7  # of an answer of somebody else, against one's own
SUREST: Final = 0.99  # however many others there are, one's own answers can still tell of another forgetting
MOST: Final = 400  # predictions kept for the gate, evenly from all


class _Round(NamedTuple):
    """Answers of all who meet an entry for the n-th time: numbers of the pairs, days, right, chances of a guess."""

    pair: Any
    day: Any
    right: Any
    guess: Any


def learn(people: Iterable[Sequence[Trial]]) -> Prior:
    """What the answers of these people tell, each person's oldest first; NOBODY without repeated answers."""
    import numpy as np

    entries, rounds = _rounds(people)
    if not rounds[1:]:
        return NOBODY
    names = list(dict.fromkeys(entries))
    place = {name: at for at, name in enumerate(names)}
    of = np.array([place[entry] for entry in entries])
    followed = [
        _Followed(_HalfLives(rounds[0]), DIFFICULTY_SHARES, rounds),
        _Followed(_Traces(rounds), ABILITY_SHARES, rounds),
    ]
    difficulties, abilities = (dict(zip(names, one.by_entry(of, len(names)), strict=True)) for one in followed)
    lead = float(np.clip(followed[0].evidence - followed[1].evidence, -700, 700))
    halves = min(max(1 / (1 + np.exp(-lead)), 1 - SUREST), SUREST)
    return Prior(difficulties, abilities, (halves, 1 - halves), followed[int(lead < 0)].predictions())


def _rounds(people: Iterable[Sequence[Trial]]) -> tuple[list[str], list[_Round]]:
    """The entry of every pair of a person and an entry, and the answers by how often the pair had met before."""
    import numpy as np

    pairs: dict[tuple[int, str], int] = {}
    met: list[int] = []
    rounds: list[list[tuple[int, float, bool, float]]] = []
    for person, trials in enumerate(people):
        for trial in trials:
            pair = pairs.setdefault((person, trial.entry), len(pairs))
            if pair == len(met):
                met.append(0)
            if met[pair] == len(rounds):
                rounds.append([])
            rounds[met[pair]].append((pair, trial.day, trial.right, trial.guess))
            met[pair] += 1
    return [entry for _, entry in pairs], [_Round(*map(np.array, zip(*one, strict=True))) for one in rounds]


class _HalfLives:
    """Every pair in the first model, by class of difficulty."""

    def __init__(self, first: _Round) -> None:
        import numpy as np

        self._hard = np.array(DIFFICULTIES)
        fresh = np.array([first_half_life(difficulty) for difficulty in DIFFICULTIES])
        known = first.right & (first.guess == 0)
        self._values = np.where(known[:, None], passed(fresh, self._hard, 0.5), fresh)
        self._last = first.day.astype(float)

    def recall(self, now: _Round) -> Any:
        import numpy as np

        days = np.maximum(now.day - self._last[now.pair], LEAST_DAYS)
        return recall_by_half_life(days[:, None], self._values[now.pair])

    def study(self, now: _Round, recall: Any) -> None:
        import numpy as np

        values = self._values[now.pair]
        up = passed_perhaps(values, self._hard, recall, now.guess[:, None])
        self._values[now.pair] = np.where(now.right[:, None], up, failed(values, self._hard, recall))
        self._last[now.pair] = now.day


class _Traces:
    """Every pair in the second model, by class of ability; a trace not laid yet lies infinitely far back."""

    def __init__(self, rounds: Sequence[_Round]) -> None:
        import numpy as np

        first = rounds[0]
        shape = (len(first.pair), len(rounds) + 1)
        self._gift = np.exp(np.array(ABILITIES))
        self._laid, self._decays = np.full(shape, -np.inf), np.full((*shape, len(ABILITIES)), FIRST_DECAY)
        known = first.right & (first.guess == 0)
        self._laid[known, 0] = first.day[known] - KNOWN_BEFORE
        self._laid[:, 1] = first.day
        self._next = 2

    def _strength(self, now: _Round) -> Any:
        import numpy as np

        days = np.maximum(now.day[:, None] - self._laid[now.pair, : self._next], LEAST_DAYS)
        left = trace(days[..., None], self._decays[now.pair, : self._next]).sum(1)
        return self._gift * left

    def recall(self, now: _Round) -> Any:
        return recall_by_strength(self._strength(now))

    def study(self, now: _Round, recall: Any) -> None:
        del recall  # a failure leaves the same trace
        self._decays[now.pair, self._next] = decay_at(self._strength(now))
        self._laid[now.pair, self._next] = now.day
        self._next += 1


class _Followed:
    """All answers under one model: what each tells of the classes, and how well it was predicted before."""

    def __init__(self, model: _HalfLives | _Traces, shares: Sequence[float], rounds: Sequence[_Round]) -> None:
        import numpy as np

        self._shares = np.log(np.array(shares))
        self._told = np.zeros((len(rounds[0].pair), len(shares)))
        chances = []
        self._right = np.concatenate([now.right for now in rounds[1:]])
        for now in rounds[1:]:
            recall = model.recall(now)
            chance = right_chance(recall, now.guess[:, None])
            chances.append((_shares(self._shares + self._told[now.pair]) * chance).sum(-1))
            self._told[now.pair] += np.log(np.where(now.right[:, None], chance, 1 - chance))
            model.study(now, recall)
        self._all = np.concatenate(chances)
        self.evidence = float(np.log(np.where(self._right, self._all, 1 - self._all)).sum())

    def by_entry(self, of: Any, count: int) -> list[tuple[float, ...]]:
        """The shares of the classes of each entry."""
        import numpy as np

        told = np.zeros((count, len(self._shares)))
        np.add.at(told, of, self._told)
        return [tuple(row) for row in _shares(self._shares + COUNT * told).tolist()]

    def predictions(self) -> tuple[Prediction, ...]:
        """Some of the answers that were predicted."""
        import numpy as np

        some = np.linspace(0, len(self._all) - 1, min(MOST, len(self._all))).astype(int)
        return tuple(Prediction(float(self._all[at]), bool(self._right[at])) for at in some)


def _shares(logs: Any) -> Any:
    import numpy as np

    parts = np.exp(logs - logs.max(-1, keepdims=True))
    return parts / parts.sum(-1, keepdims=True)
