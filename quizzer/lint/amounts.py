"""Options that are quantities: of one unit, told apart by more than their digits, and none of them absurd."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations

from quizzer.bank.entries import Card
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding, said
from quizzer.lint.starts import lines
from quizzer.lint.words import Amount, amount, comparable

NEAR, SAME, ABSURD = 0.02, 0.005, 1000.0
_BOUND = re.compile(
    r"\b(?:(?P<up>at least|no less than|not less than|more than|over|above|exceeding)"
    r"|(?P<down>at most|no more than|not more than|less than|under|below|up to|within))\s+\d",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")


def quantities(card: Card, context: Context) -> Iterator[Finding]:
    """Options that are all quantities, held to the rules of numbers."""
    found = [each for option in said(card) if (each := amount(option.text))]
    if len(found) <= len(card.wrong):
        return
    key, *wrong = found
    yield from _units(card, found)
    yield from _digits(card, key, wrong)
    yield from _distances(card, key, wrong)


def _units(card: Card, found: list[Amount]) -> Iterator[Finding]:
    words = {each.words for each in found}
    if len(words) > 1:
        listed = ", ".join(sorted(repr(word) for word in words))
        yield finding(card, "Q641", ("key",), f"the options have different units: {listed}", "write all in one unit")


def _digits(card: Card, key: Amount, wrong: list[Amount]) -> Iterator[Finding]:
    places = {each.places for each in wrong}
    if len(places) == 1 and key.places not in places:
        what = f"the key has {key.places} decimals, every other option {places.pop()}"
        yield finding(card, "Q642", ("key",), what, "give another option as many decimals as the key")


def _distances(card: Card, key: Amount, wrong: list[Amount]) -> Iterator[Finding]:
    for at, other in enumerate(wrong):
        if not comparable(key, other) or not max(key.value, other.value):
            continue
        apart = abs(key.value - other.value) / max(key.value, other.value)
        if 0 < apart < NEAR:
            what = f"{card.wrong[at].say!r} is within {apart:.1%} of the key"
            mend = "move it away: whoever rounds differently is marked wrong"
            yield finding(card, "Q644" if apart < SAME else "Q643", ("wrong", at, "say"), what, mend)
    sizes = [each.value for each in (key, *wrong) if each.value > 0 and comparable(key, each)]
    # Where all have the same digits, the prefix is what is asked.
    if sizes and max(sizes) > ABSURD * min(sizes) and len({f"{size:e}"[:6] for size in sizes}) > 1:
        what = f"the greatest option is {max(sizes) / min(sizes):.0f} times the least"
        yield finding(card, "Q645", ("key",), what, "take out the one that nobody would choose")


def bounds(card: Card, context: Context) -> Iterator[Finding]:
    """Two options of which one is true whenever the other is: at least 3 m, at least 2 m."""
    for one, other in combinations(said(card), 2):
        first, second = _bound(one.text), _bound(other.text)
        if first and first == second and one.text != other.text:
            what = f"of {one.text!r} and {other.text!r} one is true whenever the other is"
            mend = "move the words of the limit into the stem and leave bare numbers"
            yield finding(card, "Q638", other.path, what, mend)


def _bound(text: str) -> tuple[str, str] | None:
    """Which way a limit points and the text without its number; None where there is not just one of each."""
    found, numbers = list(_BOUND.finditer(text)), _NUMBER.findall(text)
    if len(found) != 1 or len(numbers) != 1:
        return None
    return found[0].lastgroup or "", _NUMBER.sub("#", text.lower())


RULES = (quantities, bounds)

_LEAST = 'say = "110 V"'

PAGES = (
    CodeDoc(
        "Q638",
        "One option is true whenever another is",
        "Whatever is at least 3 m is at least 2 m too: either there are two right answers, or the wider option can "
        "be struck "
        "out without knowing anything.",
        'say = "Repeats it at no more than 250 V"\n'
        'why = "A kinder test hides the fault and mends nothing."\n'
        "[[card.wrong]]\n"
        'say = "Repeats it at no more than 100 V"',
        lines("action", 'say = "Repeats', 'say = "Records'),
        "Move the words of the limit into the stem and leave bare numbers, or change one option.",
        start="action",
        at="100 V",
    ),
    CodeDoc(
        "Q641",
        "Quantities in different units",
        "Options in V and kV test the prefix and not the value, and cannot be listed by size.",
        'say = "0.11 kV"',
        _LEAST,
        "Write all of them in one unit.",
        warning=True,
        start="value",
        at="key = ",
    ),
    CodeDoc(
        "Q642",
        "The key alone has its number of decimals",
        "The value that was looked up has more digits than those that were made up.",
        'key = "400.0 V"',
        'key = "400 V"',
        "Give another option as many decimals.",
        warning=True,
        start="value",
    ),
    CodeDoc(
        "Q643",
        "An option within 2 % of the key",
        "Unless rounding is what is tested, nobody should have to look that closely. A tenth apart is a good rule.",
        'say = "405 V"',
        'say = "415 V"',
        "Move it away from the key, or take it out.",
        warning=True,
        start="value",
    ),
    CodeDoc(
        "Q644",
        "An option within half a per cent of the key",
        "It is the key, rounded differently.",
        'say = "401 V"',
        'say = "415 V"',
        "Move it away from the key, or take it out.",
        start="value",
    ),
    CodeDoc(
        "Q645",
        "The greatest option is a thousand times the least",
        "Nobody chooses the absurd one, so the question has an option less.",
        'say = "0.2 V"',
        _LEAST,
        "Take out the one that nobody would choose.",
        warning=True,
        start="value",
        at="key = ",
    ),
)
