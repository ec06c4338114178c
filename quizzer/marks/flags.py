"""What to look at among a paper's questions, said only where enough people answered to say it.

Start values, by judgement unless a source is named: below 30 people nothing is flagged, below 100 a flag is
provisional, and a correlation counts only where it lies two standard errors on the wrong side.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import sqrt
from typing import NamedTuple

from quizzer.marks.answers import KEY
from quizzer.marks.items import WORKS, Choice, ItemFigures

FEWEST, FIRM = 30, 100
HARD, EASY, WEAK, OMITS = 0.30, 0.95, 0.15, 0.10


class Flag(NamedTuple):
    """One finding about a question. `rank` orders them, likely miskeys first; `firm` is False below 100 people."""

    rank: int
    kind: str
    item: str
    option: str
    people: int
    firm: bool


def flags(figures: Sequence[ItemFigures]) -> tuple[Flag, ...]:
    """Every flag, the gravest kind first, then as the questions stand."""
    found = [flag for one in figures if one.people >= FEWEST for flag in _flags(one)]
    return tuple(sorted(found, key=lambda flag: flag.rank))


def likely_miskey(one: ItemFigures) -> str | None:
    """The option that may be the true key, "" when the key is wrong without a candidate; None when it looks right."""
    rivals = [
        choice for choice in one.choices if choice.name != KEY and choice.chosen > one.right and _draws_the_best(choice)
    ]
    if rivals:
        return max(rivals, key=lambda choice: choice.chosen).name
    return "" if one.with_rest is not None and one.with_rest + 2 * one.error < 0 else None


def _flags(one: ItemFigures) -> Iterator[Flag]:
    suspect = likely_miskey(one)
    if suspect is not None:
        yield _flag(0, "miskey", one, suspect)
    for choice in one.choices:
        if choice.name not in {KEY, suspect} and _draws_the_best(choice):
            yield Flag(1, "draws-the-best", one.item, choice.name, choice.offered, choice.offered >= FIRM)
    if one.with_rest is not None and suspect is None and one.with_rest + 2 * one.error < WEAK:
        yield _flag(2, "weak", one)
    if one.omitted > OMITS * one.people:
        yield _flag(3, "omitted", one)
    if one.facility < HARD:
        yield _flag(4, "hard", one)
    if one.facility > EASY:
        yield _flag(5, "easy", one)
    yield from _idle(one)


def _idle(one: ItemFigures) -> Iterator[Flag]:
    """Wrong options hardly anybody chose: judged only where a hundred were offered them."""
    for choice in one.choices:
        if choice.name != KEY and choice.offered >= FIRM and choice.share < WORKS:
            yield Flag(6, "idle", one.item, choice.name, choice.offered, firm=True)


def _draws_the_best(choice: Choice) -> bool:
    if choice.with_rest is None or choice.offered < FEWEST or choice.share < WORKS:
        return False
    error = (1 - choice.with_rest**2) / sqrt(choice.offered - 1)
    return choice.with_rest > 2 * error


def _flag(rank: int, kind: str, one: ItemFigures, option: str = "") -> Flag:
    return Flag(rank, kind, one.item, option, one.people, one.people >= FIRM)
