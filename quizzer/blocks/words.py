"""Words that more than one page says: verdicts, notices, figures in words."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quizzer.figures import decimals

RIGHT, WRONG, NO_ANSWER, NOT_FOUND = "RIGHT", "WRONG", "NO ANSWER", "NOT FOUND"
PASSED, NOT_PASSED, FAILED, NEAR_LINE = "PASSED", "NOT PASSED", "FAILED", "NEAR THE LINE"
SET_APART = "SET APART"
IN_NO_MEAN = "Neither passed nor failed, and in no figure of the group."
SAFETY_CRITICAL = "SAFETY-CRITICAL"
MOCK = "MOCK: not a live result"

DECIDES = "An estimate from answers in this program, and no promise: your assessor decides."
EVIDENCE = {
    "published": "seen in the publication named",
    "memory": "from memory, not checked against the book",
    "practice": "common practice, no published source",
}


def checked(evidence: str, signed: str) -> str:
    """How far an entry was checked: by whom and against what where a tutor has signed it off.

    >>> checked("memory", "Farah against BS 7671:2018+A4:2026"), checked("practice", "")
    ('checked by Farah against BS 7671:2018+A4:2026', 'common practice, no published source')
    """
    return f"checked by {signed}" if signed else EVIDENCE[evidence]


def percent(share: float) -> str:
    """A share in whole per cent.

    >>> percent(0.5625)
    '56 %'
    """
    return f"{decimals(100 * share, 0)} %"


def between(low: float, high: float) -> str:
    """An interval of shares, kept from 0 to 1.

    >>> between(0.231, 1.02)
    '23 to 100 %'
    """
    return f"{decimals(100 * max(0.0, low), 0)} to {decimals(100 * min(1.0, high), 0)} %"


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


def minutes_words(minutes: float) -> str:
    """Minutes as people say them.

    >>> minutes_words(1), minutes_words(2.5)
    ('1 minute', '2.5 minutes')
    """
    return f"{minutes:g} minute{'' if minutes == 1 else 's'}"


def listed(names: Sequence[str]) -> str:
    """Names with commas and an "and".

    >>> listed(["A", "B", "C"])
    'A, B and C'
    """
    return " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))


def capital(words: str) -> str:
    """The words with a capital in front."""
    return words[:1].upper() + words[1:]


def day_words(day: date, today: date) -> str:
    """A day as people say it: tomorrow, or in 6 days with its date.

    >>> day_words(date(2026, 12, 1), date(2026, 11, 25))
    'in 6 days (Tue 1 Dec)'
    """
    ahead = (day - today).days
    named = f"{day:%a} {day.day} {day:%b}" + (f" {day.year}" if day.year != today.year else "")
    if ahead <= 1:
        return f"{'today' if ahead <= 0 else 'tomorrow'} ({named})"
    return f"in {ahead} days ({named})"
