"""How long each question of a bank is expected to be on paper, before its figures are drawn."""

from __future__ import annotations

from math import fsum

from quizzer.bank.blueprints import Blueprint, SectionPlan
from quizzer.bank.entries import Diagnose, Entry
from quizzer.bank.families import Family, OrderFamily, seed_of
from quizzer.bank.head import OPTIONS
from quizzer.errors import Refused
from quizzer.paper.pool import Candidate
from quizzer.render.typst.printed_lines import lines_of, lines_read
from quizzer.workflows.exercises import question_of
from quizzer.workflows.papers.usable import Usable

FIGURE = "00.0 mm²"  # as long as a figure with its unit is


def with_lines(bank: Usable, plan: Blueprint) -> Usable:
    """The bank with the lines of every question that the blueprint may take."""
    return bank._replace(pool=tuple(_with_lines(bank, plan, one) for one in bank.pool))


def _with_lines(bank: Usable, plan: Blueprint, one: Candidate) -> Candidate:
    section = next((each for each in plan.sections if each.wants(one.id, one.safety_critical, one.exercises)), None)
    return one if section is None else one._replace(lines=_expected(bank, section, one))


def _expected(bank: Usable, section: SectionPlan, one: Candidate) -> float:
    """The lines of a plain question by its text; with a picture, a record sheet or a working, of one that is drawn."""
    entry = bank.entries[one.id]
    if one.pictured or section.exercise or isinstance(entry, Diagnose):
        seed = seed_of(entry.cases, one.case, 0) if isinstance(entry, Family) else 0
        try:
            return lines_of(question_of(bank.near, entry, seed, section.exercise))
        except Refused:  # this seed cannot be asked so
            pass
    asked = _asked(entry, one.case)
    return fsum(lines_read(each, OPTIONS) for each in asked) / len(asked)


def _asked(entry: Entry, case: int) -> list[str]:
    """The wordings of a question, with figures in their places."""
    if isinstance(entry, Family):
        return [entry.asked(entry.stems[case - 1])]
    asks = () if isinstance(entry, OrderFamily) else entry.ask
    return [ask if isinstance(ask, str) else FIGURE.join(ask.pieces[::2]) for ask in asks] or [""]
