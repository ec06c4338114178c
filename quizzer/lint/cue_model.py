"""One small model of all cues together, tried on topics it has not seen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from quizzer.lint.cue_features import features
from quizzer.lint.cue_rules import BlindEntry

MODEL = "all cues together"
RIDGE = 4.0  # holds the weights of cues that hardly ever show near nothing
STEPS = 7
# Products by einsum: those of the linear-algebra library wait for each other's threads on a busy machine.
_SCORES, _PAIRS = "qof,f->qo", "nf,ng->fg"
FOLDS = 5  # where no topics tell the entries apart


class _Table(NamedTuple):
    """Cues (questions, options, cues), which options are there, the keys, the weight and the entry of each question."""

    cues: Any
    there: Any
    key: Any
    times: Any
    entry: Any


def model_shares(entries: Sequence[BlindEntry]) -> list[float]:
    """The share of each entry's keys that the model finds, trained on the other topics."""
    import numpy as np

    topics = [entry.topic for entry in entries]
    if len(set(topics)) == 1:
        topics = [str(at % FOLDS) for at in range(len(entries))]
    table = _table(entries)
    hits = np.zeros(len(table.key))
    folds = np.array(topics)[table.entry]
    for topic in sorted(set(topics)):
        own = folds == topic
        hits[own] = _hits(fitted(_part(table, ~own)), _part(table, own))
    return [float(each) for each in np.bincount(table.entry, hits * table.times)]


def _part(table: _Table, rows: Any) -> _Table:
    return _Table(*(column[rows] for column in table))


def fitted(table: _Table) -> Any:
    """The weight of each cue: those under which the keys are likeliest, by Newton's method from zero."""
    import numpy as np

    cues = table.cues.reshape(-1, table.cues.shape[2])
    weights = np.zeros(cues.shape[1])
    right = table.times @ table.cues[np.arange(len(table.key)), table.key]
    for _ in range(STEPS):
        odds = np.where(table.there, np.exp(np.einsum(_SCORES, table.cues, weights)), 0.0)
        chance = odds / odds.sum(axis=1, keepdims=True)
        weighed = cues * (chance * table.times[:, None]).reshape(-1, 1)
        middle = weighed.reshape(table.cues.shape).sum(axis=1)
        bend = np.einsum(_PAIRS, weighed, cues) - np.einsum(_PAIRS, middle / table.times[:, None], middle)
        bend += RIDGE * np.eye(len(weights))
        weights += np.linalg.solve(bend, right - middle.sum(axis=0) - RIDGE * weights)
    return weights


def _hits(weights: Any, table: _Table) -> Any:
    """Of each question, whether the model picks its key; a part of it where options look alike to the model."""
    import numpy as np

    scores = np.where(table.there, np.einsum(_SCORES, table.cues, weights), -np.inf)
    best = scores >= scores.max(axis=1, keepdims=True) - 1e-9
    return best[np.arange(len(table.key)), table.key] / best.sum(axis=1)


def _table(entries: Sequence[BlindEntry]) -> _Table:
    import numpy as np

    rows = [np.array(features(found)).T for entry in entries for found in entry.seen]
    most = max(len(row) for row in rows)
    cues = np.zeros((len(rows), most, rows[0].shape[1]))
    for at, row in enumerate(rows):
        cues[at, : len(row)] = row
    there = np.arange(most)[None, :] < np.array([len(row) for row in rows])[:, None]
    draws = np.array([len(entry.asked) for entry in entries])
    key = np.array([asked.key for entry in entries for asked in entry.asked])
    return _Table(cues, there, key, np.repeat(1 / draws, draws), np.repeat(np.arange(len(entries)), draws))
