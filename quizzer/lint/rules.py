"""Every rule, in the order its findings are worth reading. Tuples: nothing can be added at run time."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.bank.entries import Card, Diagnose, Entry, Template
from quizzer.bank.families import Family, OrderFamily
from quizzer.lint import (
    alike,
    amounts,
    articles,
    belief,
    counts,
    cue_share,
    cues,
    currency,
    diagnoses,
    dimensions,
    draws,
    ease,
    families,
    family_cases,
    family_pools,
    forewarned,
    half_right,
    lengths,
    pictures,
    places,
    proofs,
    replacing,
    shared,
    slips,
    stems,
    stock,
    told,
    usage,
)
from quizzer.lint.rule import AskedRule, BankRule, CardRule, Context, FamilyRule, Finding, RenderedQuestion, said
from quizzer.lint.trial import TrialRule, rendered, trial

TRIAL_RULES: tuple[TrialRule, ...] = (
    *proofs.RULES,
    *draws.RULES,
    *slips.RULES,
    *places.RULES,
    *usage.RULES,
    *told.RULES,
    *dimensions.RULES,
    *belief.RULES,
    *pictures.RULES,
    articles.before_what_is_drawn,
)
FAMILY_RULES: tuple[FamilyRule, ...] = (*family_pools.RULES, *family_cases.RULES, pictures.of_a_family)
CARD_RULES: tuple[CardRule, ...] = (*counts.RULES, pictures.of_a_card)
CHOICE_RULES: tuple[CardRule, ...] = (*cues.RULES, *lengths.RULES, *amounts.RULES, *forewarned.RULES)
ASKED_RULES: tuple[AskedRule, ...] = (
    *stems.RULES,
    *stock.RULES,
    *ease.RULES,
    *currency.RULES,
    articles.in_the_text,
    *half_right.RULES,
)
BANK_RULES: tuple[BankRule, ...] = (*alike.RULES, *cue_share.RULES, *replacing.RULES)
LIST_RULES: tuple[BankRule, ...] = shared.RULES


def examine(entry: Entry, context: Context) -> Iterator[Finding]:
    """Every finding about one entry."""
    match entry:
        case Template():
            yield from _template(entry, context)
        case Card():
            yield from _card(entry, context)
        case Family() | OrderFamily():
            yield from _family(entry, context)
        case Diagnose():
            yield from _diagnose(entry, context)


def _template(template: Template, context: Context) -> Iterator[Finding]:
    tried = trial(template)
    for rule in TRIAL_RULES:
        yield from rule(tried, context)
    if tried.draws:
        asked = RenderedQuestion(template, rendered(tried, tried.draws[0]), ())
        for each in ASKED_RULES:
            yield from each(asked, context)


def _diagnose(entry: Diagnose, context: Context) -> Iterator[Finding]:
    for rule in diagnoses.RULES:
        yield from rule(entry, context)
    for each in ASKED_RULES:
        yield from each(RenderedQuestion(entry, entry.ask, ()), context)


def _family(family: Family | OrderFamily, context: Context) -> Iterator[Finding]:
    yield from families.examined(family, context, ASKED_RULES)
    if isinstance(family, Family):
        for rule in FAMILY_RULES:
            yield from rule(family, context)


def _card(card: Card, context: Context) -> Iterator[Finding]:
    choice = () if card.steps else CHOICE_RULES
    for rule in (*CARD_RULES, *choice):
        yield from rule(card, context)
    asked = RenderedQuestion(card, card.ask, said(card))
    for each in ASKED_RULES:
        yield from each(asked, context)
