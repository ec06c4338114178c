"""Figures of reports in words."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.figures import decimals
from quizzer.marks.intervals import Interval

NOTICE = (
    "A study aid: never an instruction to work live, never a certificate of competence, never a design. "
    "Your tutor, the current edition and local rules decide."
)


def percent(share: float) -> str:
    """A share in whole per cent.

    >>> percent(0.5625)
    '56 %'
    """
    return f"{decimals(100 * share, 0)} %"


def between(interval: Interval) -> str:
    """An interval of shares.

    >>> between(Interval(0.231, 0.882))
    '23 to 88 %'
    """
    return f"{decimals(100 * max(0.0, interval.low), 0)} to {decimals(100 * min(1.0, interval.high), 0)} %"


def chance(share: float) -> str:
    """A chance in per cent; never 0 or 100, which would claim certainty.

    >>> chance(0.31), chance(0.9999)
    ('about 31 %', 'more than 99 %')
    """
    if share < 0.01:
        return "less than 1 %"
    return "more than 99 %" if share > 0.99 else f"about {percent(share)}"


def number(value: float | None, places: int = 2) -> str:
    """A figure to so many places, a dash for none.

    >>> number(0.3049), number(None)
    ('0.30', '-')
    """
    return "-" if value is None else decimals(value, places)


def count(n: int, one: str, many: str = "") -> str:
    """A number with its noun.

    >>> count(1, "person", "people"), count(3, "script")
    ('1 person', '3 scripts')
    """
    return f"{n} {one if n == 1 else many or one + 's'}"


def listed(names: Sequence[str]) -> str:
    """Names with commas and an "and".

    >>> listed(["A", "B", "C"])
    'A, B and C'
    """
    return " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))
