"""The same mistake across questions and people: who made it, out of all who could have."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from quizzer.bank.mistakes import unworded
from quizzer.marks.answers import KEY, ChosenOption, Sheet


class Mistake(NamedTuple):
    """One mistake: the people who made it and those who met a question that invites it, and its answers.

    `name` is what is counted: a slip of the whole bank, or one wrong option of one entry (`entry:option`).
    """

    name: str
    made: tuple[str, ...]
    met: int
    answers: tuple[ChosenOption, ...]


def named(entry: str, option: str, slips: Iterable[str]) -> str:
    """What a wrong option is counted under: its slip, if the bank names one, else this entry's own option."""
    slip = unworded(option)
    return slip if slip in slips else f"{entry}:{option}"


def mistakes(sheets: Sequence[Sheet], slips: Iterable[str]) -> tuple[Mistake, ...]:
    """Every mistake made by anybody, those of most people first; a person counts once, however often they made it."""
    known = frozenset(slips)
    met: dict[str, set[str]] = {}
    made: dict[str, list[ChosenOption]] = {}
    for each in sheets:
        for answer in each.answers:
            for option in answer.offered:
                if option == KEY:
                    continue
                name = named(answer.entry, option, known)
                met.setdefault(name, set()).add(each.person)
                if answer.chosen == option:
                    made.setdefault(name, []).append(answer)
    found = [
        Mistake(name, tuple(sorted({answer.person for answer in answers})), len(met[name]), tuple(answers))
        for name, answers in made.items()
    ]
    return tuple(sorted(found, key=lambda one: (-len(one.made), -len(one.made) / one.met, one.name)))
