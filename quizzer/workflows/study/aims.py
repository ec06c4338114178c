"""What a trainee studies for, as the order of a session needs it; and what they were asked before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date
from math import fsum

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.blueprint_files import USUAL, blueprint
from quizzer.bankfiles.listing import Listed
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import BankError, NotFound
from quizzer.schedule import NO_AIMS, Aims, History
from quizzer.store import Answered, Trainee


def aims_for(shelf: Shelf, trainee: Trainee, listed: Sequence[Listed]) -> tuple[Aims, str]:
    """What the trainee's paper asks of these entries; and a sentence when that paper cannot be read.

    Somebody who has named none studies for the usual one, where the bank has it.
    """
    try:
        return aims_of(blueprint(shelf, trainee.blueprint or USUAL), listed), ""
    except (NotFound, BankError) as error:
        note = f"{error.message}: no paper is studied for; {error.mend}"
        return NO_AIMS, note if trainee.blueprint else ""


def aims_of(plan: Blueprint, listed: Sequence[Listed]) -> Aims:
    """The weights of the entries, 1 on the average of those asked, and the sections."""
    sections = [frozenset(part.members(listed)) for part in plan.sections]
    weights = dict.fromkeys((one.id for one in listed), 0.0)
    for part, able in zip(plan.sections, sections, strict=True):
        for entry in able:
            weights[entry] += part.questions / len(able)
    asked = [weight for weight in weights.values() if weight]
    if not asked:
        return NO_AIMS
    mean = fsum(asked) / len(asked)
    return Aims({entry: weight / mean for entry, weight in weights.items()}, tuple(sections))


def history_of(answered: Sequence[Answered], today: date) -> History:
    """What was asked before; `answered` newest first, those from a clock that was ahead left out."""
    counts: Counter[str] = Counter()
    first: dict[str, str] = {}
    latest, days = today.isoformat(), set()
    for one in answered:
        if one.day <= latest:
            counts[one.entry] += 1
            first[one.entry] = one.day
            days.add(one.day)
    newest = max(first.values(), default="")
    return History(counts, sum(day > newest for day in days))
