"""Making a mock paper from a blueprint, and making its questions again from its record."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from random import Random
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint, SectionPlan
from quizzer.bank.entries import Entry
from quizzer.bank.families import Family
from quizzer.bank.head import Head
from quizzer.bank.signoffs import Ledger
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import ledger
from quizzer.editions import LATEST, NOT_TIED, UNAFFECTED, is_tied
from quizzer.errors import BankError, NotFound, Refused
from quizzer.paper.assembly import Assembly, Slot, assemble
from quizzer.paper.enemies import enemies
from quizzer.paper.pool import Candidate, Observed, candidate
from quizzer.paper.positions import acceptable
from quizzer.paper.record import Form, Item, Paper, Section
from quizzer.paper.record_reading import is_file_name
from quizzer.question.question import Question
from quizzer.question.replies import by_letter
from quizzer.workflows.exercises import Near, digest_of, exercises_by_letter, neighbours_in, question_of, wanted

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I and no O, which look like figures
MOST_FORMS = len(LETTERS)
REDRAWS = 200
SEEDS = 10_000


class Order(NamedTuple):
    """What a tutor asks for: forms, questions (0: as the blueprint says), seed, an edition, only signed-off entries."""

    forms: int
    questions: int
    seed: int
    edition: str
    signed_only: bool
    people: tuple[str, ...] = ()  # with names, everybody gets the same entries with numbers of their own


class Made(NamedTuple):
    """A paper, how even its forms are (marks at the worst ability), and entries of recent papers it had to use."""

    paper: Paper
    gap_before: float
    gap: float
    repeated: tuple[str, ...]


def make_paper(
    shelf: Shelf,
    blueprint: Blueprint,
    order: Order,
    made_on: date,
    observed: Mapping[str, Observed],
    recent: frozenset[str],
) -> Made:
    """A paper. `recent` are entries of the last two papers, avoided while the bank allows. Raises Refused."""
    if not is_file_name(_id(blueprint, order, made_on)):
        raise Refused(f"no paper can be named after {blueprint.id!r}", mend="give the blueprint's file a plainer name")
    plan = blueprint.scaled(order.questions) if order.questions else blueprint
    entries = _usable(shelf, order, ledger(shelf.root))
    near = neighbours_in(shelf)
    pool = [
        one._replace(exercises=exercises_by_letter(near, entry, wanted(plan)))
        for entry in entries.values()
        if (one := candidate(entry, observed.get(entry.head.id), entry.head.id in recent))
    ]
    dice = Random(f"{blueprint.id}/{order.seed}").random
    found = assemble(plan, pool, enemies(pool), 1 if order.people else order.forms, dice)
    forms = _forms(found, pool, _Bank(entries, near), plan, order)
    taken = {item.entry for form in forms for item in form.items}
    edition = order.edition or _usual_edition(entries, taken)
    return Made(
        _record(plan, order, edition, made_on, forms), found.gap_before, found.gap, tuple(sorted(taken & recent))
    )


def questions_of(
    find: Callable[[str], Entry], paper: Paper, form: Form, near: Near = lambda _: ()
) -> tuple[Question, ...]:
    """The questions of a form, made again; `find` gives the entry of an id, `near` the sums beside it in the bank.

    Raises Refused when an entry is gone or has changed since.
    """
    questions, changed = [], []
    for item in form.items:
        try:
            entry = find(item.entry)
        except (NotFound, BankError):
            changed.append(f"{item.entry} is gone")
            continue
        if entry.head.id != item.entry:
            changed.append(f"{item.entry} is now {entry.head.id}")
        elif digest_of(near, entry, item.exercise) != item.digest:
            changed.append(f"{item.entry} has changed")
        else:
            questions.append(question_of(near, entry, item.seed, item.exercise))
    if changed:
        what = f"paper {paper.id} cannot be made again: {', '.join(changed[:5])}"
        raise Refused(what, mend="use the bank the paper was made from, or make a new paper")
    return tuple(questions)


def _usable(shelf: Shelf, order: Order, told: Ledger) -> dict[str, Entry]:
    """The entries that may stand in a paper: sound, undisputed, of the edition, signed off where that is asked."""
    return {
        entry.head.id: entry
        for _, loaded in shelf.everything()
        for entry in loaded.entries
        if not told.disputed(entry)
        and (not order.edition or _follows(entry, order.edition, told))
        and (not order.signed_only or told.signed(entry))
    }


def _follows(entry: Entry, edition: str, told: Ledger) -> bool:
    """Whether an entry follows an edition: by a sign-off against it, or because it and each of its cases does."""
    signed = told.signed(entry)
    heads = [entry.head, *(stem.head for stem in entry.stems)] if isinstance(entry, Family) else [entry.head]
    return bool(signed and edition in signed.edition) or all(_holds(head, edition) for head in heads)


def _holds(head: Head, edition: str) -> bool:
    """Whether a fact stands in an edition: it says so, rests on none, or is left as it was by the latest, asked for."""
    unaffected = head.currency.state == UNAFFECTED and LATEST in edition
    return edition in head.edition or not is_tied(head.edition) or unaffected


class _Bank(NamedTuple):
    """The entries that may stand in a paper, and their neighbours."""

    entries: Mapping[str, Entry]
    near: Near


def _forms(found: Assembly, pool: Sequence[Candidate], bank: _Bank, plan: Blueprint, order: Order) -> tuple[Form, ...]:
    if order.people:
        places = found.forms[0]
        return tuple(
            _form("A", f"A{number:02d}", person, places, pool, bank, plan, order)
            for number, person in enumerate(order.people, 1)
        )
    return tuple(
        _form(letter, letter, "", places, pool, bank, plan, order)
        for letter, places in zip(LETTERS, found.forms, strict=False)
    )


def _form(  # noqa: PLR0913, PLR0917  what a form is made of
    letter: str,
    serial: str,
    person: str,
    places: Sequence[Slot],
    pool: Sequence[Candidate],
    bank: _Bank,
    plan: Blueprint,
    order: Order,
) -> Form:
    # Sections in their order; inside each the easier questions first, as a candidate is led in.
    ordered = sorted(
        places, key=lambda place: (place.section, -pool[place.candidate].facility, pool[place.candidate].id)
    )

    def drawn(attempt: int) -> tuple[Item, ...]:
        dice = Random(f"{plan.id}/{order.seed}/{serial}/{attempt}").random
        return tuple(
            _item(bank, bank.entries[pool[place.candidate].id], plan.sections[place.section], dice) for place in ordered
        )

    draws = (drawn(attempt) for attempt in range(REDRAWS))
    items = next((items for items in draws if acceptable([item.key for item in items])), drawn(0))
    return Form(letter, serial, person, items)


def _item(bank: _Bank, entry: Entry, section: SectionPlan, dice: Callable[[], float]) -> Item:
    for _ in range(REDRAWS):
        seed = int(dice() * SEEDS)
        question = question_of(bank.near, entry, seed, section.exercise)
        if by_letter(question.kind):  # a seed may ask for a typed number: a paper is answered with letters
            digest = digest_of(bank.near, entry, section.exercise)
            return Item(entry.head.id, seed, digest, section.id, question.key, question.exercise)
    raise Refused(f"{entry.head.id} never asks with options", mend="give it more slips, or form = 'number'")


def _usual_edition(entries: Mapping[str, Entry], taken: set[str]) -> str:
    """The edition most of the questions follow; those tied to none have no say."""
    editions = Counter(entries[id].head.edition for id in sorted(taken))
    tied = [(edition, count) for edition, count in editions.most_common() if is_tied(edition)]
    return tied[0][0] if tied else NOT_TIED


def _id(plan: Blueprint, order: Order, made_on: date) -> str:
    return f"{plan.id}-{made_on.isoformat()}-{order.seed}"


def _record(plan: Blueprint, order: Order, edition: str, made_on: date, forms: tuple[Form, ...]) -> Paper:
    return Paper(
        id=_id(plan, order, made_on),
        title=plan.title,
        blueprint=plan.id,
        edition=edition,
        made_on=made_on.isoformat(),
        seed=order.seed,
        minutes=plan.minutes,
        pass_mark=plan.pass_mark,
        permitted=plan.permitted,
        sections=tuple(Section(each.id, each.title, each.questions, each.all_right) for each in plan.sections),
        forms=forms,
    )
