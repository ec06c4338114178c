"""Cautions on paper: what several questions of a section would each say is said once, above them all."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from quizzer.bank.head import Caution
from quizzer.blocks.words import listed


def split(cautions: Mapping[int, Sequence[Caution]]) -> tuple[list[dict[str, str]], dict[int, list[dict[str, str]]]]:
    """What stands above the section, and what stands with each question, by its number.

    `cautions` are those of every question of the section before its options, by number.
    """
    whose: dict[Caution, list[int]] = {}
    for number, each in cautions.items():
        for caution in each:
            whose.setdefault(caution, []).append(number)
    above = {caution: numbers for caution, numbers in whose.items() if len(numbers) > 1}
    beside = {number: [_told(one, "") for one in each if one not in above] for number, each in cautions.items()}
    return [_told(caution, _for(numbers, len(cautions))) for caution, numbers in above.items()], beside


def runs(numbers: Sequence[int]) -> list[str]:
    """The numbers, in order, those that follow each other as one run.

    >>> runs([5, 6, 7, 9, 11, 12])
    ['5 to 7', '9', '11', '12']
    """
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return [word for run in found for word in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else list(map(str, run)))]


def _for(numbers: Sequence[int], of: int) -> str:
    if len(numbers) == of:
        return "every question of this section"
    return f"questions {listed(runs(numbers))}"


def _told(caution: Caution, whose: str) -> dict[str, str]:
    return {"say": caution.say, "defer": caution.defer, "for": whose}
