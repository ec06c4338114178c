"""Whether what is believed of a learner's memory is good enough to schedule by, or the plain rule must go on."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, log, sqrt
from typing import Final

from quizzer.recall.belief import Prediction
from quizzer.values import NamedTuple


class Threshold(NamedTuple):
    """What predictions must show: so many held-out answers (repeats, not first sights), and their evidence.

    Evidence is the log loss saved on all of them together against saying the same of every answer: 3 means that what
    happened was e**3 times as likely by the predictions. `margin` is what more is wanted for each answer beyond MANY.
    """

    answers: int
    evidence: float
    margin: float


# Where memories halve, the plain rule is near the best there is, and leaving it too early costs more than it brings;
# it keeps all recall alike, so no forecast can be much better than a constant, and a margin would wait for luck. Where
# traces fade the plain rule is far from the best, and forecasts tell answers well apart; those that hardly do are of
# somebody whose slips and guesses look like slow forgetting. (All measured by `scripts/simulate`.)
HALVING: Final = Threshold(100, 3.0, 0.0)
FADING: Final = Threshold(40, 2.0, 0.02)
MANY: Final = 150  # answers
SURE: Final = 0.9  # of which shape of forgetting it is
CALIBRATED: Final = 100  # of one's own answers, from which the calibration of others' counts no more
MOST_ERROR: Final = 0.05
RECENT, FEWEST_RECENT = 30, 12  # answers, about a session, that must not have come as a surprise
SURPRISED: Final = 2.5  # standard deviations
BINS: Final = 5


def trusted(weights: Sequence[float], own: Sequence[Prediction], others: Sequence[Prediction] = ()) -> bool:
    """True once one shape of forgetting leads clearly and enough answers were predicted, well enough calibrated.

    The answers are the learner's own and others'. Well enough is: evidence over saying the same of every answer, and a
    calibration error of at most 0.05 beyond luck (with 100 answers even perfect forecasts show 0.08), of one's own
    answers as soon as there are enough to tell. The learner's last answers must not have come as a surprise: what held
    before may hold no more.
    """
    if surprise(own[-RECENT:]) > SURPRISED:
        return False
    halving, fading = shapes(weights)
    wanted, both = HALVING if halving > fading else FADING, [*others, *own]
    if len(both) < wanted.answers or max(halving, fading) < SURE:
        return False
    if evidence(both) < wanted.evidence + wanted.margin * max(0, len(both) - MANY):
        return False
    told = own if len(own) >= CALIBRATED or not others else others
    return calibration_error(told) - luck(told) <= MOST_ERROR


def shapes(weights: Sequence[float]) -> tuple[float, float]:
    """The weights of the two shapes of forgetting, over all paces."""
    half = len(weights) // 2
    return fsum(weights[:half]), fsum(weights[half:])


def surprise(predictions: Sequence[Prediction]) -> float:
    """By how many standard deviations the log loss is greater than the predictions themselves expect.

    0 for too few to tell.
    """
    if len(predictions) < FEWEST_RECENT:
        return 0.0
    expected = variance = 0.0
    for chance, _ in predictions:
        expected -= chance * log(chance) + (1 - chance) * log(1 - chance)
        variance += chance * (1 - chance) * log(chance / (1 - chance)) ** 2
    lost = log_loss(predictions) * len(predictions)
    return (lost - expected) / sqrt(max(variance, 1e-9))


def log_loss(predictions: Sequence[Prediction]) -> float:
    """Mean -log of the chance given to what happened; nothing predicted gives 0."""
    losses = [-log(chance if right else 1 - chance) for chance, right in predictions]
    return fsum(losses) / len(losses) if losses else 0.0


def evidence(predictions: Sequence[Prediction]) -> float:
    """The log loss saved on all predictions together against giving each answer the share of right ones.

    >>> round(evidence([Prediction(0.8, True), Prediction(0.2, False)]), 4)
    0.94
    """
    return len(predictions) * (constant_log_loss(predictions) - log_loss(predictions))


def constant_log_loss(predictions: Sequence[Prediction]) -> float:
    """The log loss of giving each answer the share of right ones as its chance.

    >>> round(constant_log_loss([Prediction(0.9, True), Prediction(0.9, False)]), 4)
    0.6931
    """
    share = sum(right for _, right in predictions) / len(predictions)
    return -fsum(part * log(part) for part in (share, 1 - share) if part > 0)


def calibration_error(predictions: Sequence[Prediction]) -> float:
    """The expected calibration error: |mean chance - share right|, averaged over five bins of equal count."""
    bins = _bins(predictions)
    return fsum(abs(fsum(p.chance - p.right for p in group)) for group in bins) / max(len(predictions), 1)


def luck(predictions: Sequence[Prediction]) -> float:
    """The calibration error that perfect forecasts of these chances would show by luck alone."""
    spreads = [sqrt(fsum(p.chance * (1 - p.chance) for p in group)) for group in _bins(predictions)]
    return 0.8 * fsum(spreads) / max(len(predictions), 1)


def _bins(predictions: Sequence[Prediction]) -> list[Sequence[Prediction]]:
    # By the chance alone: to sort equal chances by what happened would make bins of right answers.
    ordered, count = sorted(predictions, key=lambda prediction: prediction.chance), len(predictions)
    return [ordered[count * step // BINS : count * (step + 1) // BINS] for step in range(BINS)]
