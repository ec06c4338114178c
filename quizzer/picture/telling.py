"""What a picture is told, read: numbers, counts and lists, and words for them that can be spoken."""

from __future__ import annotations

import re
from collections.abc import Sequence

from quizzer.blocks.pictures import ASKED

_NUMBER = re.compile(r"\s*([-+]?\d+(?:[.,]\d+)?)")
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


class Untold(ValueError):
    """What a picture is told cannot be drawn; `mend` says what to tell it."""

    def __init__(self, what: str, mend: str) -> None:
        super().__init__(what)
        self.mend = mend


def number(text: str, name: str) -> float:
    """The number that a text begins with. Raises Untold where it begins with none."""
    found = _NUMBER.match(text)
    if not found:
        raise Untold(f"{name} is {text!r}", f"tell {name} a number")
    return float(found[1].replace(",", "."))


def count(text: str, name: str, fewest: int, most: int) -> int:
    """The whole number that a text begins with, from `fewest` to `most`. Raises Untold for any other."""
    value = number(text, name)
    if value != int(value) or not fewest <= value <= most:
        raise Untold(f"{name} is {text!r}", f"tell {name} a whole number from {fewest} to {most}")
    return int(value)


def ordinal(at: int) -> str:
    """The place of the first (0), second (1), ... in words."""
    return _ORDINALS[at] if at < len(_ORDINALS) else f"number {at + 1}"


def counted(many: int, thing: str) -> str:
    """So many things in words.

    >>> counted(1, "socket"), counted(3, "branch"), counted(14, "lamp")
    ('one socket', 'three branches', '14 lamps')
    """
    ending = "" if many == 1 else "es" if thing.endswith(("ch", "sh", "x", "s")) else "s"
    return f"{_COUNTS[many] if many < len(_COUNTS) else many} {thing}{ending}"


def listed(parts: Sequence[str]) -> str:
    """The parts as a list in a sentence.

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    return " and ".join([*([", ".join(parts[:-1])] if len(parts) > 1 else []), *parts[-1:]])


def named(text: str, thing: str) -> str:
    """What stands beside a thing, as it is spoken: its text, or that it is what is asked.

    >>> named("10 Ω", "resistor"), named("R_1 ?", "resistor")
    ('10 Ω', 'R_1, which is asked for')
    """
    if ASKED not in text:
        return text or f"a {thing}"
    name = text.replace(ASKED, "").strip(" =")
    return f"{name}, which is asked for" if name else f"a {thing}, which is asked for"
