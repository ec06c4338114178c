"""How large what a file says may be: numbers, texts, lists, nesting. Beyond that nothing is worked out at all.

A number of a thousand digits or a list of a million tables is legal TOML, and takes hours once it is calculated with.
"""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from typing import Any

DIGITS = 30  # before and after the point: far beyond any quantity of the trade
DEPTH = 12  # tables in tables; the deepest shipped file has 7
VALUES = 100_000  # in one file
LISTED = 2_000  # items of one list
LONGEST = 5_000  # characters of one text
MOST_SEED = 10**15
YEARS = range(1970, 2201)  # days outside are no days of study, and those at the ends cannot be counted from
_LARGEST = 10**DIGITS
_SHOWN = 60
# A key of very many parts takes the TOML reader a time that grows with their square.
_MANY_PARTS = re.compile(r"""(?:\.[ \t]*(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*){16}(?=[.=\]])""")


class Beyond:
    """A number that is too large, too small or too long to be worked with: as written, and of no type wanted."""

    def __init__(self, written: str) -> None:
        self._written = written

    def __repr__(self) -> str:
        return self._written


class TooMuch(Exception):
    """The file holds more than anything of ours: `str()` says what."""


def number(text: str) -> Decimal | Beyond:
    """A number of TOML as written, or what stands for one beyond all bounds."""
    try:
        found = Decimal(text)
    except InvalidOperation:  # an exponent of twenty digits
        return Beyond(text)
    _, digits, exponent = found.as_tuple()
    if not isinstance(exponent, int):  # inf and nan are refused where a number is read
        return found
    fits = len(digits) <= 2 * DIGITS and exponent >= -DIGITS and found.adjusted() < DIGITS
    return found if fits else Beyond(text)


def refuse_many_parts(text: str) -> None:
    """Raise TooMuch for a key or header of very many dotted parts."""
    if found := _MANY_PARTS.search(text):
        line = text.count("\n", 0, found.start()) + 1
        raise TooMuch(f"a key of more than 16 parts (line {line})")


def within(value: Any, depth: int = 0) -> Any:
    """The parsed value with whole numbers beyond all bounds replaced. Raises TooMuch for nesting, lists and counts."""
    return _within(value, depth, [VALUES])


def _within(value: Any, depth: int, left: list[int]) -> Any:
    left[0] -= 1
    if left[0] < 0:
        raise TooMuch(f"more than {VALUES:,} values")
    if depth > DEPTH:
        raise TooMuch(f"tables nested more than {DEPTH} deep")
    if isinstance(value, dict):
        return {key: _within(inner, depth + 1, left) for key, inner in value.items()}
    if isinstance(value, list):
        if len(value) > LISTED:
            raise TooMuch(f"a list of {len(value):,} items, where {LISTED:,} are the most")
        return [_within(inner, depth + 1, left) for inner in value]
    if isinstance(value, int) and not -_LARGEST < value < _LARGEST:
        return Beyond("a whole number of very many digits")
    return value


def said(value: object) -> str:
    """A value of a file in a sentence: as written, and cut when it is long."""
    text = f"{value}" if isinstance(value, Decimal) else repr(value)
    return text if len(text) <= _SHOWN else f"{text[:_SHOWN]}…"
