"""What one person knows of each topic, and how fast they forget, worked out from their answers. Pure.

A topic's recall R is a share with the prior Beta(kappa m, kappa (1 - m)): it is shrunk towards the person's own overall
level m, and m towards the levels of the others in the store. An answer given `gap` days after the last one in the topic
is right with the chance g + (1 - g) R 2^(-gap / H), where g is the chance of a guess and H the days in which half is
forgotten. m, kappa and H are not known: each is a column of values whose weights follow from the answers. What follows
is a mixture over them, so that an interval is wide where forgetting could not yet be told from few answers.

Answers before a topic's last one count for less the older they are, because a topic is learnt meanwhile.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any, Final, NamedTuple

GUESS: Final = 0.25  # the chance of a lucky hit among four options
# Days, where nobody's answers say otherwise. A half-life too short takes more from a mark than one too long adds, so
# that with the doubt about it (a factor of two either way) this expects the mark of one who forgets half in 60 days.
USUAL_HALF_LIFE: Final = 70.0
_SPREAD_UNKNOWN, _SPREAD_AMONG_PEOPLE = 0.7, 0.35  # of the logarithm of H: before any data; between people of a centre
_LEVELS_LIKE: Final = (
    10.0  # people whose level would be as the prior says: how much it weighs beside those of the store
)
_ROUNDS: Final = 3  # of learning half-lives and levels from each other; later ones change nothing that is shown
_LEARNT: Final = 60.0  # days after which an earlier answer counts half of a later one in its topic
_LEVELS = tuple(at / 20 for at in range(1, 20))
_KAPPAS = (4.0, 9.0, 20.0)
_HALF_LIVES = tuple(8.0 * 1.2**at for at in range(24))  # 8 to 530 days
_POINTS = 30
_GAP_EDGES = (1, 2, 4, 7, 11, 17, 26, 41, 61, 91, 151, 301)
_GAP_DAYS = (0.0, 1.0, 2.5, 5.0, 8.5, 13.5, 21.0, 33.0, 50.0, 75.0, 120.0, 220.0, 450.0)


class Answers(NamedTuple):
    """One person's answers.

    The number of the topic, the day, right (1) or not, and whether one of a few options was chosen (1), so that a
    guess may have hit.
    """

    topics: Sequence[int]
    days: Sequence[int]
    right: Sequence[int]
    chosen: Sequence[int]


class Knowledge(NamedTuple):
    """What is known of one person.

    The weight of each cell (half-life by level with kappa), and for each topic and cell the mean and the mean square of
    its recall; answers and days since the last one for each topic (-1: never).
    """

    weights: Any
    mean: Any
    square: Any
    counts: Any
    idle: Any


class _Grid(NamedTuple):
    log_right: Any  # (gaps x 2) by (points x half-lives)
    log_wrong: Any
    prior: Any  # points by cells of level and kappa
    points: Any
    cells: Any  # the weight of each cell before any data
    log_half_lives: Any
    half_lives: Any


@lru_cache(maxsize=1)
def _grid() -> _Grid:
    import numpy as np

    points = (np.arange(_POINTS) + 0.5) / _POINTS
    half_lives = np.array(_HALF_LIVES)
    kept = 2.0 ** (-np.array(_GAP_DAYS)[:, None] / half_lives)
    guess = np.array([0.0, GUESS])[None, :, None, None]
    chance = guess + (1 - guess) * points[None, None, :, None] * kept[:, None, None, :]
    chance = chance.reshape(len(_GAP_DAYS) * 2, -1)
    cells = [(kappa * level, kappa * (1 - level)) for level in _LEVELS for kappa in _KAPPAS]
    a, b = (np.array(side)[None, :] for side in zip(*cells, strict=True))
    prior = np.exp((a - 1) * np.log(points)[:, None] + (b - 1) * np.log1p(-points)[:, None])
    prior /= prior.sum(axis=0)
    level = np.array([level for level in _LEVELS for _ in _KAPPAS])
    return _Grid(
        np.log(chance), np.log1p(-chance), prior, points, _whole(level * (1 - level)),
        np.log(half_lives), half_lives,
    )  # fmt: skip


def usual() -> Any:
    """The weights of half-lives (rows) and levels with kappas (columns) before anybody's answers are known."""
    import numpy as np

    return np.outer(_usual_lives(), _grid().cells)


def shared(people: Sequence[Answers], topics: int, today: int) -> Any:
    """The same weights for somebody of whom nothing is known, from what the others of the store know and forgot."""
    import numpy as np

    found = [_evidence(one, topics, today)[0] for one in people]
    likelihoods = [np.exp(one - one.max()) for one in found]
    lives, cells = _usual_lives(), _grid().cells
    for _ in range(_ROUNDS if people else 0):
        lives = _lives(likelihoods, cells)
        cells = _whole(_LEVELS_LIKE * _grid().cells + sum(_whole(cells * (lives @ one)) for one in likelihoods))
    return np.outer(lives, cells)


def _usual_lives() -> Any:
    import numpy as np

    return _whole(np.exp(-0.5 * ((_grid().log_half_lives - np.log(USUAL_HALF_LIFE)) / _SPREAD_UNKNOWN) ** 2))


def _lives(likelihoods: Sequence[Any], cells: Any) -> Any:
    """The weights of the half-lives of one more person, where people are spread about one unknown half-life."""
    import numpy as np

    near = _among_people()
    middle = np.log(_usual_lives()) + sum(np.log(near @ (one @ cells) + 1e-300) for one in likelihoods)
    return near.T @ _whole(np.exp(middle - middle.max()))


def known(answers: Answers, topics: int, today: int, beforehand: Any = None) -> Knowledge:
    """What the answers say of each of the topics 0 to `topics` - 1 on `today`; answers of later days are left out.

    `beforehand` is the weight of each half-life and cell without them (`shared`, or else `usual`).
    """
    import numpy as np

    grid = _grid()
    evidence, likelihood, marginal, counts, idle = _evidence(answers, topics, today)
    evidence = evidence + np.log(usual() if beforehand is None else beforehand)
    weights = _whole(np.exp(evidence - evidence.max()))
    moments = [np.einsum("kph,pc->khc", likelihood * grid.points[None, :, None] ** n, grid.prior, optimize=True)
               / marginal for n in (1, 2)]  # fmt: skip
    return Knowledge(weights, moments[0], moments[1], counts, idle)


def half_life(knowledge: Knowledge) -> tuple[float, float, float]:
    """Days in which half is forgotten: the middle value, and the ends of a 90 % interval."""
    import numpy as np

    below = np.cumsum(knowledge.weights.sum(axis=1))
    low, middle, high = (float(_grid().half_lives[int(np.searchsorted(below, at))]) for at in (0.05, 0.5, 0.95))
    return middle, low, high


def kept_after(days: Any) -> Any:
    """The share of recall left after these days, for each half-life of the cells."""
    import numpy as np

    return 2.0 ** (-np.asarray(days, dtype=float)[..., None] / _grid().half_lives)


def _evidence(answers: Answers, topics: int, today: int) -> tuple[Any, Any, Any, Any, Any]:
    """The log chance of all answers in each cell; for each topic its likelihood, its marginal, answers, idle days."""
    import numpy as np

    grid = _grid()
    right, wrong, counts, idle = _counted(answers, topics, today)
    log_likelihood = right @ grid.log_right + wrong @ grid.log_wrong
    highest = log_likelihood.max(axis=1, keepdims=True)
    likelihood = np.exp(log_likelihood - highest).reshape(topics, _POINTS, len(_HALF_LIVES))
    marginal = np.einsum("kph,pc->khc", likelihood, grid.prior, optimize=True) + 1e-300
    return np.log(marginal).sum(axis=0) + highest.sum(), likelihood, marginal, counts, idle


def _counted(answers: Answers, topics: int, today: int) -> tuple[Any, Any, Any, Any]:
    """Weighted right and wrong answers for each topic by gap and kind; plain counts; idle days."""
    import numpy as np

    topic, day, right, chosen = (np.asarray(column, dtype=np.int64) for column in answers)
    keep = day <= today
    topic, day, right, chosen = topic[keep], day[keep], right[keep], chosen[keep]
    order = np.lexsort((day, topic))
    topic, day, right, chosen = topic[order], day[order], right[order], chosen[order]
    counts = np.bincount(topic, minlength=topics)
    last = np.full(topics, -1, dtype=np.int64)
    np.maximum.at(last, topic, day)
    gap = np.diff(day, prepend=day[:1])
    gap[np.diff(topic, prepend=-1) != 0] = 0
    kinds = 2 * len(_GAP_DAYS)
    place = topic * kinds + 2 * np.searchsorted(_GAP_EDGES, gap, side="right") + chosen
    weight = 2.0 ** (-(last[topic] - day) / _LEARNT)
    tables = [np.bincount(place, weight * side, minlength=topics * kinds).reshape(topics, kinds)
              for side in (right, 1 - right)]  # fmt: skip
    return tables[0], tables[1], counts, np.where(counts > 0, today - last, -1)


def _among_people() -> Any:
    """How likely each half-life (column) is for a person, where each (row) is the middle one of a centre."""
    import numpy as np

    logs = _grid().log_half_lives
    near = np.exp(-0.5 * ((logs[None, :] - logs[:, None]) / _SPREAD_AMONG_PEOPLE) ** 2)
    return near / near.sum(axis=1, keepdims=True)


def _whole(weights: Any) -> Any:
    return weights / weights.sum()
