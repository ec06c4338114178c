"""What a bank can serve of a blueprint: what each section may choose from, and the most parallel forms."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import ledger
from quizzer.paper.enemies import enemies
from quizzer.paper.pool import Candidate
from quizzer.paper.solving import first_forms
from quizzer.workflows.exercises import wanted
from quizzer.workflows.papers.usable import usable

MOST = 12  # forms tried for; more than anybody prints


class SectionServed(NamedTuple):
    """A section: its questions, and what it may choose from.

    `cases` counts every case of a family, `entries` a family once; `calculations` are those of the entries.
    """

    title: str
    questions: int
    cases: int
    entries: int
    calculations: int


class Served(NamedTuple):
    """A blueprint's sections, and the most parallel forms that the bank gives without asking anything twice."""

    blueprint: Blueprint
    sections: tuple[SectionServed, ...]
    forms: int


def pool_of(shelf: Shelf, *plans: Blueprint) -> Sequence[Candidate]:
    """Every question of the bank that may stand in a paper, with the exercises of these plans that it offers."""
    return usable(shelf, ledger(*shelf.roots), wanted(*plans)).pool


def served(blueprint: Blueprint, pool: Sequence[Candidate]) -> Served:
    """What the pool can serve of the blueprint, proven by the solver."""
    sections = []
    for plan in blueprint.sections:
        able = [one for one in pool if plan.wants(one.id, one.safety_critical, one.exercises)]
        entries, calculations = {one.id for one in able}, sum(one.calculation for one in able)
        sections.append(SectionServed(plan.title, plan.questions, len(able), len(entries), calculations))
    most = min((each.cases // each.questions for each in sections), default=0)
    pairs = enemies(pool)
    forms = min(most, MOST)
    while forms and first_forms(blueprint, pool, pairs, forms, Random(0).random) is None:
        forms -= 1
    return Served(blueprint, tuple(sections), forms)
