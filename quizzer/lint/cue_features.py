"""What somebody sees who reads the options and not the stem: one number per option for each cue."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from itertools import combinations
from math import fsum, log, sqrt
from statistics import mean
from typing import NamedTuple

from quizzer.lint.cues import ABSOLUTE, HEDGE
from quizzer.lint.words import amount, content

_NEGATION = re.compile(r"\b(?:not|no|never|none|without|neither|nor|cannot|nothing)\b", re.IGNORECASE)
# What the safest-sounding option says, in the words of this trade.
_CAUTION = re.compile(
    r"\b(?:isolat\w+|dead|proved?|proving|stop\w*|inform\w*|report\w*|supervisor|lock\w*|disconnect\w*|secure\w*|warn\w*"
    r"|refuse\w*|switch\w* off|permit\w*|safe\w*|protect\w*|check\w*|competent|withdraw\w*|evacuat\w+|barrier\w*)\b",
    re.IGNORECASE,
)
_FIGURE = re.compile(r"\d+(?:[.,]\d+)?")
_TWO = (2.0,)
_TIE = 0.2
_FACTORS = (1.2, 1.25, sqrt(2), sqrt(3), 2.0, 3.0, 4.0, 10.0, 100.0, 1000.0)
# What a mistake of the trade multiplies or divides by, as a reader knows it who has not seen the stem.
_PARTS = (0.8, 0.85, 0.9, 0.95)
_MORE = (1.1, 4 / 3, 1.44, 1.5, 5.0, 6.0, 8.0, 9.0, 20.0, 50.0, 60.0, 3600.0, 240 / 230)
_SLIPS = tuple(sorted((*_FACTORS, *_MORE, *(1 / part for part in _PARTS))))
_NEAR = 0.006

Scores = tuple[float, ...]


class Blind(NamedTuple):
    """The options of a question as they are read without its stem, and which of them is the key.

    `values` are their sizes where all are quantities of one kind, else empty.
    """

    texts: tuple[str, ...]
    values: tuple[float, ...]
    key: int


def blind(texts: Sequence[str], values: Sequence[float | None], key: int) -> Blind:
    """The options; the size of a text that is a quantity is read off it where none is handed in."""
    sizes = [_size(text) if value is None else value for text, value in zip(texts, values, strict=True)]
    known = tuple(size for size in sizes if size is not None)
    return Blind(tuple(texts), known if len(known) == len(sizes) else (), key)


def scores(asked: Blind) -> dict[str, Scores]:
    """What each cue makes of each option; the highest is picked."""
    return {name: score(asked) for name, score in CUES.items()}


def _size(text: str) -> float | None:
    found = amount(text)
    return found.value if found else None


def _each(score: Callable[[str], float]) -> Callable[[Blind], Scores]:
    return lambda asked: tuple(score(text) for text in asked.texts)


def _said(pattern: re.Pattern[str], sign: int = 1) -> Callable[[Blind], Scores]:
    return _each(lambda text: sign * len(pattern.findall(text)))


def _shared(sign: int) -> Callable[[Blind], Scores]:
    def score(asked: Blind) -> Scores:
        words = [content(text) | set(_FIGURE.findall(text)) for text in asked.texts]
        return tuple(
            sign * sum(len(one & other) for at, other in enumerate(words) if at != own) for own, one in enumerate(words)
        )

    return score


def _middle(asked: Blind) -> Scores:
    if not asked.values or min(asked.values) <= 0:
        return _equal(asked)
    logs = [log(value) for value in asked.values]
    between = fsum(logs) / len(logs)
    return tuple(-abs(each - between) for each in logs)


def _partners(factors: tuple[float, ...]) -> Callable[[Blind], Scores]:
    def score(asked: Blind) -> Scores:
        return tuple(
            float(sum(_is_multiple(one, other, factors) for at, other in enumerate(asked.values) if at != own))
            for own, one in enumerate(asked.values)
        ) or _equal(asked)

    return score


def _centre(asked: Blind) -> Scores:
    """How many of the others follow from each: by a factor, or two as far below as above; among equals, the middle."""
    counts, middle = _partners(_SLIPS)(asked), _middle(asked)
    halfway = [
        sum(_is_halfway(value, one, other) for one, other in combinations(asked.values, 2)) for value in asked.values
    ] or [0] * len(asked.texts)
    return tuple(map(fsum, zip(counts, halfway, (_TIE * each for each in middle), strict=True)))


def _is_halfway(value: float, one: float, other: float) -> bool:
    return one != other and (
        abs(one + other - 2 * value) < _NEAR * abs(value) or abs(one * other - value**2) < _NEAR * value**2
    )


def _is_multiple(one: float, other: float, factors: tuple[float, ...]) -> bool:
    if one * other <= 0:
        return False
    ratio = max(one / other, other / one)
    at = bisect_right(factors, ratio / (1 + _NEAR))  # the factors go up
    return at < len(factors) and factors[at] < ratio / (1 - _NEAR)


def _digits(text: str) -> int:
    found = _FIGURE.search(text)
    return len(re.sub(r"\D", "", found[0]).lstrip("0").rstrip("0")) if found else 0


def _precise(sign: int) -> Callable[[Blind], Scores]:
    return lambda asked: tuple(float(sign * _digits(text)) for text in asked.texts) if asked.values else _equal(asked)


def _mid_precise(asked: Blind) -> Scores:
    digits = [_digits(text) for text in asked.texts]
    return tuple(-abs(each - mean(digits)) for each in digits) if asked.values else _equal(asked)


def _equal(asked: Blind) -> Scores:
    return (0.0,) * len(asked.texts)


def _place(*places: int) -> Callable[[Blind], Scores]:
    return lambda asked: tuple(float(at in places) for at in range(len(asked.texts)))


def _careful(asked: Blind) -> Scores:
    return tuple(float(len(HEDGE.findall(text)) - len(ABSOLUTE.findall(text))) for text in asked.texts)


# The highest score is picked; where several have it, one of them.
CUES: Mapping[str, Callable[[Blind], Scores]] = {
    "longest": _each(len),
    "shortest": _each(lambda text: -len(text)),
    "hedged": _said(HEDGE),
    "rejects absolutes": _said(ABSOLUTE, -1),
    "hedged, no absolute": _careful,
    "negated": _said(_NEGATION),
    "not negated": _said(_NEGATION, -1),
    "most cautious words": _said(_CAUTION),
    "most shared words": _shared(1),
    "odd one out": _shared(-1),
    "middle number": _middle,
    "half or double is there": _partners(_TWO),
    "round multiples are there": _partners(_FACTORS),
    "the others follow from it": _centre,
    "most precise number": _precise(1),
    "middling precision": _mid_precise,
    "at A": _place(0),
    "at B": _place(1),
    "at C": _place(2),
    "at D": _place(3),
}


def features(found: Mapping[str, Scores]) -> list[Scores]:
    """The scores of every cue, each from -1 to 1 within the question: (cues, options)."""
    return [_level(each) for each in found.values()]


def _level(found: Scores) -> Scores:
    between = fsum(found) / len(found)
    most = max(abs(score - between) for score in found)
    return tuple((score - between) / most if most else 0.0 for score in found)
