"""What a bank can serve of a blueprint: the entries each section may choose from, and the most parallel forms."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.shelf import Shelf
from quizzer.paper.enemies import enemies
from quizzer.paper.pool import Candidate, candidate
from quizzer.paper.solving import first_forms
from quizzer.workflows.exercises import exercises_by_letter, neighbours_in, wanted

MOST = 12  # forms tried for; more than anybody prints


class SectionServed(NamedTuple):
    """A section: its questions, the entries that may stand in it, and how many of those are calculations."""

    title: str
    questions: int
    entries: int
    calculations: int


class Served(NamedTuple):
    """A blueprint's sections, and the most parallel forms that can be made of the bank without using an entry twice."""

    blueprint: Blueprint
    sections: tuple[SectionServed, ...]
    forms: int


def pool_of(shelf: Shelf, *plans: Blueprint) -> list[Candidate]:
    """Every entry of the bank that may stand in a paper, with the exercises of these plans that it offers."""
    entries = [entry for _, loaded in shelf.everything() for entry in loaded.entries]
    near, names = neighbours_in(shelf), wanted(*plans)
    return [
        one._replace(exercises=exercises_by_letter(near, entry, names))
        for entry in entries
        if (one := candidate(entry, None, used=False))
    ]


def served(blueprint: Blueprint, pool: Sequence[Candidate]) -> Served:
    """What the pool can serve of the blueprint, proven by the solver."""
    sections = []
    for plan in blueprint.sections:
        able = [one for one in pool if plan.wants(one.id, one.safety_critical, one.exercises)]
        sections.append(SectionServed(plan.title, plan.questions, len(able), sum(one.calculation for one in able)))
    most = min((each.entries // each.questions for each in sections), default=0)
    pairs = enemies(pool)
    forms = min(most, MOST)
    while forms and first_forms(blueprint, pool, pairs, forms, Random(0).random) is None:
        forms -= 1
    return Served(blueprint, tuple(sections), forms)
