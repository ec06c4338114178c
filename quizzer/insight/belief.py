"""What a learner's own answers tell of their memory: which model fits, how fast they forget, how hard each entry is.

Six models run side by side: two shapes of forgetting, each at three paces. Within each, an entry's difficulty is one of
seven classes whose shares start at those of all entries and move with every answer (so few answers move them little).
Every answer is first predicted and only then learned from, so all predictions are of held-out answers, and the models'
weights follow from how well they predicted. What other people's answers tell (`others.py`) may come before it all.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp, fsum, log
from typing import Final, NamedTuple

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

PACES: Final = (0.7, 1.0, 1.4)
PACE_SHARES: Final = (0.15, 0.7, 0.15)
DIFFICULTIES: Final = (2.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0)
# Of a bell curve with mean 6 and deviation 2, by nearest class.
DIFFICULTY_SHARES: Final = (0.0668, 0.1598, 0.1747, 0.1974, 0.1747, 0.1598, 0.0668)
ABILITIES: Final = (-0.05, 0.23, 0.475, 0.65, 0.825, 1.07, 1.35)
# Of a bell curve with mean 0.65 and deviation 0.35, by nearest class.
ABILITY_SHARES: Final = (0.0548, 0.1429, 0.2036, 0.1974, 0.2036, 0.1429, 0.0548)
LEAST_DAYS: Final = 0.04  # an hour: two answers of one day
SURPRISE: Final = 0.002  # no answer is thought quite impossible
KNOWN_BEFORE: Final = 7.0  # days since an entry that is known at first sight was last met, for want of better


class Trial(NamedTuple):
    """One answer: the entry, the day (any count of days), whether it was right, the chance of guessing it."""

    entry: str
    day: float
    right: bool
    guess: float = 0.0


class Prediction(NamedTuple):
    """What was thought of an answer before it was known: the chance of its being right; and whether it was."""

    chance: float
    right: bool


class Prior(NamedTuple):
    """What is believed before the first answer.

    The shares of the classes of difficulty and of ability by entry, where others have answered it; the weights of the
    two shapes of forgetting; and how well the others' answers were predicted.
    """

    difficulties: Mapping[str, Sequence[float]]
    abilities: Mapping[str, Sequence[float]]
    shapes: tuple[float, float]
    predictions: Sequence[Prediction]


NOBODY: Final = Prior({}, {}, (0.5, 0.5), ())


@dataclass(frozen=True, slots=True)
class HalfLives:
    """An entry in the first model: the shares and half-lives of its classes of difficulty, and its last day."""

    shares: Sequence[float]
    values: tuple[float, ...]
    last: float


@dataclass(frozen=True, slots=True)
class Traces:
    """An entry in the second model: the shares of its classes of ability; the day and decay by class of its traces."""

    shares: Sequence[float]
    laid: tuple[tuple[float, tuple[float, ...]], ...]


State = HalfLives | Traces


@dataclass(frozen=True, slots=True)
class Followed:
    """All answers under one model: what it believes of each entry, and the chances it gave (None at first sight)."""

    pace: float
    entries: dict[str, State]
    chances: tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Belief:
    """All models after all answers: their weights, which add up to 1, and what they predicted together."""

    models: tuple[Followed, ...]
    weights: tuple[float, ...]
    predictions: tuple[Prediction, ...]
    prior: Prior


def believe(trials: Sequence[Trial], prior: Prior = NOBODY) -> Belief:
    """What the answers tell, oldest first. Drills are left out by the caller."""
    models = [(kind, pace) for kind in ("half-lives", "traces") for pace in PACES]
    followed = tuple(_follow(kind, pace, trials, prior) for kind, pace in models)
    weights, predictions = _weigh(followed, trials, prior)
    return Belief(followed, weights, predictions, prior)


def right_chance(recall: float, guess: float) -> float:
    """The chance of a right answer at a chance of recall: known, or guessed."""
    return SURPRISE / 2 + (1 - SURPRISE) * (guess + (1 - guess) * recall)


def _follow(kind: str, pace: float, trials: Sequence[Trial], prior: Prior) -> Followed:
    entries: dict[str, State] = {}
    chances: list[float | None] = []
    for trial in trials:
        state = entries.get(trial.entry)
        if state is None:
            entries[trial.entry] = _first(kind, trial, pace, prior)
            chances.append(None)
        else:
            recalls = recalls_of(state, trial.day, pace)
            rights = [right_chance(recall, trial.guess) for recall in recalls]
            chances.append(fsum(share * right for share, right in zip(state.shares, rights, strict=True)))
            entries[trial.entry] = _after(state, trial, recalls, rights, pace)
    return Followed(pace, entries, tuple(chances))


def recalls_of(state: State, day: float, pace: float) -> list[float]:
    """The chance of recall on a day, in each class."""
    if isinstance(state, HalfLives):
        days = max(day - state.last, LEAST_DAYS) * pace
        return [recall_by_half_life(days, value) for value in state.values]
    return [recall_by_strength(strength) for strength in _strengths(state, day, pace)]


def _strengths(state: Traces, day: float, pace: float) -> list[float]:
    sums = [0.0] * len(ABILITIES)
    for laid, decays in state.laid:
        days = max(day - laid, LEAST_DAYS) * pace
        sums = [total + trace(days, decay) for total, decay in zip(sums, decays, strict=True)]
    return [exp(ability) * total for ability, total in zip(ABILITIES, sums, strict=True)]


def _first(kind: str, trial: Trial, pace: float, prior: Prior) -> State:
    """After the first sight. Whoever is right then, and cannot have guessed, has met the matter before."""
    met_before = trial.right and not trial.guess
    if kind == "half-lives":
        values = tuple(first_half_life(difficulty) for difficulty in DIFFICULTIES)
        known = tuple(passed(value, d, 0.5) for value, d in zip(values, DIFFICULTIES, strict=True))
        shares = prior.difficulties.get(trial.entry, DIFFICULTY_SHARES)
        return HalfLives(shares, known if met_before else values, trial.day)
    fresh = (FIRST_DECAY,) * len(ABILITIES)
    before = ((trial.day - KNOWN_BEFORE / pace, fresh),) if met_before else ()
    return Traces(prior.abilities.get(trial.entry, ABILITY_SHARES), (*before, (trial.day, fresh)))


def _after(state: State, trial: Trial, recalls: list[float], rights: list[float], pace: float) -> State:
    likely = [right if trial.right else 1 - right for right in rights]
    total = fsum(share * chance for share, chance in zip(state.shares, likely, strict=True))
    shares = tuple(share * chance / total for share, chance in zip(state.shares, likely, strict=True))
    if isinstance(state, HalfLives):
        known = zip(state.values, DIFFICULTIES, recalls, strict=True)
        if trial.right:
            return HalfLives(shares, tuple(passed_perhaps(*one, trial.guess) for one in known), trial.day)
        return HalfLives(shares, tuple(failed(*one) for one in known), trial.day)
    decays = tuple(decay_at(strength) for strength in _strengths(state, trial.day, pace))
    return Traces(shares, (*state.laid, (trial.day, decays)))


def _weigh(
    followed: Sequence[Followed], trials: Sequence[Trial], prior: Prior
) -> tuple[tuple[float, ...], tuple[Prediction, ...]]:
    """The weights after all answers, and what the models said together before each one but first sights."""
    logs = [log(shape * share) for shape in prior.shapes for share in PACE_SHARES]
    predictions: list[Prediction] = []
    for chances, trial in zip(zip(*(model.chances for model in followed), strict=True), trials, strict=True):
        given = [chance for chance in chances if chance is not None]
        if not given:
            continue
        weights = _normal(logs)
        together = fsum(weight * chance for weight, chance in zip(weights, given, strict=True))
        predictions.append(Prediction(together, trial.right))
        logs = [was + log(chance if trial.right else 1 - chance) for was, chance in zip(logs, given, strict=True)]
    return _normal(logs), tuple(predictions)


def _normal(logs: Sequence[float]) -> tuple[float, ...]:
    top = max(logs)
    parts = [exp(value - top) for value in logs]
    return tuple(part / fsum(parts) for part in parts)
