"""What one person knows of each topic and each entry, and how fast they forget, from their answers. Pure.

A topic's recall R is what a person brings to an entry they have never met: a share with the prior
Beta(kappa m, kappa (1 - m)), shrunk towards their own overall level m, and m towards the levels of others. The first
answer to an entry is right with the chance g + (1 - g) R 2^(-gap / H), where g is the chance of a guess and H the days
in which half is forgotten. The gap is reckoned by one of two clocks: from the last answer in the topic, if practice
restores a topic as a whole, or from the first answer of all, if it does nothing for entries not met.

An entry that was met has a memory of its own, of strength L just after it was met (a share in the same way, of its
topic and of the entry): the next answer to it is right with the chance g + (1 - g) (L f + R' (1 - f)),
f = 2^(-gap / (n h)) after n meetings, with a half-life h of its own and R' what the topic gives at that time. So
practice raises what is known of the entries practised, and is not read as a topic that is never forgotten.

m, kappa, H, h and the clock are not known: each is a column of values whose weights follow from the answers. What
follows is a mixture over them, so that an interval is wide where forgetting could not yet be told from few answers.

First answers before a topic's last one count for less the older they are, because a topic is learnt meanwhile.
"""

from __future__ import annotations

from typing import Any, Final

from quizzer.recall.guess import GUESS, SELDOM
from quizzer.recall.meetings import Answers, Meetings, meetings
from quizzer.recall.recall_grid import CLOCKS, GAP_EDGES, GAPS, HALF_LIVES, POINTS, RESTS, grid, whole
from quizzer.values import NamedTuple

_LEARNT: Final = 60.0  # days after which an earlier answer counts half of a later one in its topic
_OWN: Final = 4.0  # answers that an entry's own outweigh what is known of others practised in its topic
_FADES: Final = 0.7  # weight of an answer to an entry beside the next one to it
_FIRST: Final = 0.5  # weight of the first answer to an entry for how hard it is


class Own(NamedTuple):
    """What is known of the entries met, those of the bank only: each one's topic and days since, by its own clock.

    Just after it was met its recall is `slope` times the strength of its topic plus `shift`. The weight of each cell
    (half-life of the entries' own by level with kappa), and each topic's strength in it, mean and mean square.
    """

    topics: Any
    idle: Any
    meetings: Any
    slope: Any
    shift: Any
    weights: Any
    mean: Any
    square: Any


class Knowledge(NamedTuple):
    """What is known of one person.

    The weight of each cell (half-lives by the topic's clock, then by the calendar's, by level with kappa), and for each
    topic and cell the mean and the mean square of its recall; answers, first answers, and days since the last one for
    each topic (-1: never); days since the first answer of all; the entries met.
    """

    weights: Any
    mean: Any
    square: Any
    counts: Any
    firsts: Any
    idle: Any
    since: int
    own: Own


class FirstAnswerEvidence(NamedTuple):
    """What first answers say: the log chance of all of them in each cell; each topic's likelihood and marginal."""

    found: Meetings
    logs: Any
    likelihood: Any
    marginal: Any


def usual() -> Any:
    """The weights of half-lives by each clock (rows) and levels with kappas (columns) before any answers are known."""
    import numpy as np

    return np.outer(np.tile(grid().lives, CLOCKS) / CLOCKS, grid().cells)


def known(answers: Answers, topics: int, today: int, beforehand: Any = None) -> Knowledge:
    """What the answers say of each of the topics 0 to `topics` - 1 on `today`; answers of later days are left out.

    `beforehand` is the weight of each half-life and cell without them (`people.shared`, or else `usual`).
    """
    import numpy as np

    said = evidence(answers, topics, today)
    together = said.logs + np.log(usual() if beforehand is None else beforehand)
    weights = whole(np.exp(together - together.max()))
    mean, square = _moments(said.likelihood, said.marginal)
    found = said.found
    own = _own(found, topics, _rests(found, weights, mean))
    return Knowledge(weights, mean, square, found.counts, found.firsts, found.topic_idle, found.since, own)


def evidence(answers: Answers, topics: int, today: int) -> FirstAnswerEvidence:
    """What the first answers say, before it is weighed with anything known beforehand."""
    import numpy as np

    found = meetings(answers, topics, today)
    clocks = [_chances(_first_counts(found, topics, gap), grid().first) for gap in (found.topic_gap, found.day)]
    logs, likelihood, marginal = (
        np.concatenate(both, axis=axis) for both, axis in zip(zip(*clocks, strict=True), (0, 1, 1), strict=True)
    )
    return FirstAnswerEvidence(found, logs, likelihood, marginal)


def _own(found: Meetings, topics: int, rest: Any) -> Own:
    """What later answers say of the entries met."""
    import numpy as np

    logs, likelihood, marginal = _chances(_again_counts(found, topics, rest), grid().again)
    logs = logs + np.log(np.outer(grid().lives, grid().own_cells))
    weights = whole(np.exp(logs - logs.max()))
    mean, square = _moments(likelihood, marginal)
    strength = np.tensordot(mean, weights, axes=2)
    slope, shift = _own_effect(found, rest, strength, _usual_life(weights.sum(axis=1)))
    return Own(found.topic, found.idle, found.times, slope, shift, weights, mean, square)


def half_life(knowledge: Knowledge) -> tuple[float, float, float]:
    """Days in which half is forgotten: the middle value, and the ends of a 90 % interval."""
    import numpy as np

    below = np.cumsum(knowledge.weights.sum(axis=1).reshape(CLOCKS, -1).sum(axis=0))
    places = (min(int(np.searchsorted(below, at)), len(HALF_LIVES) - 1) for at in (0.05, 0.5, 0.95))
    low, middle, high = (HALF_LIVES[at] for at in places)
    return middle, low, high


def _chances(counted: tuple[Any, Any], logs: tuple[Any, Any]) -> tuple[Any, Any, Any]:
    """The log chance of all answers in each cell (half-life by level with kappa); each topic's likelihood, marginal."""
    import numpy as np

    (right, wrong), (log_right, log_wrong) = counted, logs
    log_likelihood = right @ log_right + wrong @ log_wrong
    highest = log_likelihood.max(axis=1, keepdims=True)
    log_likelihood -= highest
    likelihood = np.exp(log_likelihood, out=log_likelihood).reshape(-1, POINTS)
    marginal = (likelihood @ grid().prior + 1e-300).reshape(len(right), len(HALF_LIVES), -1)
    return np.log(marginal).sum(axis=0) + highest.sum(), likelihood.reshape(*marginal.shape[:2], POINTS), marginal


def _moments(likelihood: Any, marginal: Any) -> tuple[Any, Any]:
    """Mean and mean square of each topic's recall in each cell."""
    both = (likelihood.reshape(-1, POINTS) @ grid().moments).reshape(*marginal.shape[:2], 2, -1)
    return both[:, :, 0] / marginal, both[:, :, 1] / marginal


def _first_counts(found: Meetings, topics: int, gap: Any) -> tuple[Any, Any]:
    """Weighted right and wrong first answers for each topic by gap (in days, of each answer) and kind."""
    import numpy as np

    at = found.first
    place = 2 * np.searchsorted(GAP_EDGES, gap[at], side="right") + found.chosen[at]
    weight = 2.0 ** (-found.age[at] / _LEARNT)
    return _table(found.topics[at], place, weight, found.right[at], (topics, GAPS * 2))


def _again_counts(found: Meetings, topics: int, rest: Any) -> tuple[Any, Any]:
    """Weighted right and wrong later answers for each topic by gap, by what the topic gives besides, and by kind."""
    import numpy as np

    at = ~found.first & (found.own_gap > 0)  # the same day it is no memory yet
    gap = np.searchsorted(GAP_EDGES, found.own_gap[at] / found.nth[at], side="right")
    step = np.clip((rest[at] * RESTS).astype(int), 0, RESTS - 1)
    place = 2 * (gap * RESTS + step) + found.chosen[at]
    return _table(found.topics[at], place, np.ones(len(place)), found.right[at], (topics, GAPS * RESTS * 2))


def _table(topic: Any, place: Any, weight: Any, right: Any, shape: tuple[int, int]) -> tuple[Any, Any]:
    import numpy as np

    at = topic * shape[1] + place
    hits, misses = (
        np.bincount(at, weight * side, minlength=shape[0] * shape[1]).reshape(shape) for side in (right, 1 - right)
    )
    return hits, misses


def _usual_life(lives: Any) -> float:
    """The half-life that stands for all of them where one is enough."""
    import numpy as np

    return float(np.exp(lives @ np.log(grid().half_lives) / lives.sum()))


def _rests(found: Meetings, weights: Any, mean: Any) -> Any:
    """What each answer's topic gave when it was given, without a memory of the entry itself."""
    recall = (mean * weights).reshape(len(mean), CLOCKS, -1).sum(axis=2)
    lives = weights.sum(axis=1).reshape(CLOCKS, -1)
    return sum(
        recall[found.topics, clock] * 2.0 ** (-gap / _usual_life(lives[clock]))
        for clock, gap in enumerate((found.topic_gap, found.day))
    )


def _own_effect(found: Meetings, rest: Any, strength: Any, life: float) -> tuple[Any, Any]:
    """Slope and shift of each entry met: how its own answers differ from what its topic would have brought."""
    import numpy as np

    guess = np.where(found.chosen, GUESS, SELDOM)
    kept = np.where(found.first, 0.0, 2.0 ** (-found.own_gap / (np.maximum(found.nth, 1) * life)))
    weight = np.where(found.first, _FIRST, 1.0) * _FADES**found.still
    left = found.right - guess - (1 - guess) * (1 - kept) * rest
    many = len(found.topic)
    size = np.bincount(found.place, weight * (1 - guess) * kept, minlength=many + 1)[:many]
    seen = np.bincount(found.place, weight * left, minlength=many + 1)[:many]
    slope, shift = _OWN / (_OWN + size), seen / (_OWN + size)
    # No entry is known better than always or worse than never.
    middle = slope * strength[found.topic] + shift
    return slope, shift + np.clip(middle, 0.02, 0.99) - middle
