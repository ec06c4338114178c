"""How far a mark to come can be told of somebody of whom it is hardly known how fast they forget. Pure.

One person's answers show little of a half-life, and a mark far from the last practice hangs on it. So the mark is
worked out twice more: once as if this person had been taken beforehand for one who forgets as fast as one person in
ten, once as slowly, and then with the same answers. Where either would move the mark too far, only a range is told,
from the low end of the one to the high end of the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from quizzer.recall.expected_mark import Beta, Marks, Outlook, Part
from quizzer.recall.guess import GUESS
from quizzer.values import NamedTuple

ONE_IN_TEN: Final = 1.2816  # standard deviations from the middle beyond which one in ten of a normal distribution lies
OUT: Final = 1.5 / 60  # the share of a paper by which a mark may be out through it and still be named
SHARE: Final = 0.9  # of the ranges told
_WAYS: Final = (0.0, -ONE_IN_TEN, ONE_IN_TEN)


class Foreseen(NamedTuple):
    """A mark to come, or None where only a range is told; the ends that hold it nine times in ten."""

    marks: Marks | None
    low: int
    high: int


class Recalled(NamedTuple):
    """A topic's recall to come: its mean, whether that may be told, and what the ends of its range are taken from."""

    mean: float
    lowest: Beta
    highest: Beta
    told: bool

    def ends(self) -> tuple[float, float]:
        """The ends that hold it nine times in ten. They take a search each: only who is shown them asks."""
        return self.lowest.below((1 - SHARE) / 2), self.highest.below((1 + SHARE) / 2)


def foreseen(ahead: Outlook, parts: Sequence[Part], *, told: bool | None = None) -> Foreseen:
    """The mark on a paper of these parts; `told` settles whether it is named, as it does for parts of a paper."""
    usual, fast, slow = ahead.leaning(parts, _WAYS)
    if told is None:
        told = _near(usual.mean, fast.mean, slow.mean, OUT * sum(part.questions for part in parts))
    if told:
        return Foreseen(usual, *usual.between(SHARE))
    return Foreseen(None, fast.between(SHARE)[0], slow.between(SHARE)[1])


def recalled(ahead: Outlook, weights: Sequence[float]) -> list[Recalled]:
    """Each topic's recall; the same rule, for their sum by what they weigh in a paper without lucky hits."""
    betas = ahead.topics_leaning(_WAYS)
    usual, fast, slow = (sum(beta.mean * weight for beta, weight in zip(each, weights, strict=True)) for each in betas)
    told = _near(usual, fast, slow, OUT / (1 - GUESS) * sum(weights))
    lows, highs = (betas[0], betas[0]) if told else betas[1:]
    return [Recalled(beta.mean, low, high, told) for beta, low, high in zip(betas[0], lows, highs, strict=True)]


def _near(usual: float, fast: float, slow: float, out: float) -> bool:
    """Whether it matters no more than so much how fast this person forgets."""
    return max(usual - fast, slow - usual) <= out
