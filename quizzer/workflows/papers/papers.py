"""Making a mock paper from a blueprint, and making its questions again from its record."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence
from datetime import date
from random import Random
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint, SectionPlan
from quizzer.bank.entries import Entry
from quizzer.bank.families import Family, seed_of
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import ledger
from quizzer.editions import NOT_TIED, is_tied
from quizzer.errors import BankError, NotFound, Refused
from quizzer.paper.assembly import Assembly, Slot, assemble
from quizzer.paper.enemies import enemies
from quizzer.paper.pool import Candidate, Facilities
from quizzer.paper.positions import acceptable
from quizzer.paper.record import Form, Item, Paper, Section
from quizzer.paper.record_reading import is_file_name
from quizzer.question.question import Question
from quizzer.question.replies import by_letter
from quizzer.workflows.exercises import Near, digest_of, question_of, wanted
from quizzer.workflows.papers.kept_questions import Kept, kept_question, kept_questions, name_of, packed
from quizzer.workflows.papers.usable import EarlierAnswers, Usable, usable

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I and no O, which look like figures
MOST_FORMS = len(LETTERS)
_SERIAL, _SERIAL_LENGTH = "2345679ACDEFGHJKLMNPRTVWXY", 5  # nothing that is taken for something else when written
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
    """A paper, how even its forms are (marks at the worst ability), and questions of recent papers it had to use."""

    paper: Paper
    gap_before: float
    gap: float
    repeated: tuple[str, ...]


def make_paper(
    shelf: Shelf,
    blueprint: Blueprint,
    order: Order,
    made_on: date,
    observed: Facilities,
    recent: Collection[tuple[str, int]],
) -> Made:
    """A paper. `recent` are entry and seed of questions that people had lately, avoided while the bank allows.

    Raises Refused.
    """
    if not is_file_name(_id(blueprint, order, made_on)):
        raise Refused(f"no paper can be named after {blueprint.id!r}", mend="give the blueprint's file a plainer name")
    plan = blueprint.scaled(order.questions) if order.questions else blueprint
    bank = usable(
        shelf,
        ledger(*shelf.roots),
        wanted(plan),
        EarlierAnswers(observed, recent),
        edition=order.edition,
        signed_only=order.signed_only,
    )
    dice = Random(f"{blueprint.id}/{order.seed}").random
    found = assemble(plan, bank.pool, enemies(bank.pool), 1 if order.people else order.forms, dice)
    drawn: dict[str, Question] = {}
    forms = _forms(found, bank, plan, order, drawn)
    edition = order.edition or _usual_edition(bank.entries, {item.entry for form in forms for item in form.items})
    taken = (bank.pool[place.candidate] for form in found.forms for place in form)
    repeated = tuple(sorted(one.id for one in taken if one.used))
    record = _record(plan, order, edition, made_on, forms)
    wanted_names = {name_of(item) for form in forms for item in form.items}
    kept = packed(question for name, question in sorted(drawn.items()) if name in wanted_names)
    return Made(record._replace(questions=kept), found.gap_before, found.gap, repeated)


def questions_of(
    find: Callable[[str], Entry],
    paper: Paper,
    form: Form,
    near: Near = lambda _: (),
    kept: Kept | None = None,
) -> tuple[Question, ...]:
    """The questions of a form: as the paper has kept them, else made again.

    `find` gives the entry of an id, `near` the sums beside it in the bank; `kept` is what the paper keeps, unpacked.
    Raises Refused when a question is not kept and its entry is gone or has changed since.
    """
    kept = kept_questions(paper) if kept is None else kept
    questions, changed = [], []
    for item in form.items:
        if was := kept_question(paper, kept, item):
            questions.append(was)
            continue
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


def _forms(
    found: Assembly, bank: Usable, plan: Blueprint, order: Order, drawn: dict[str, Question]
) -> tuple[Form, ...]:
    """The forms; every question that was drawn for them goes into `drawn`, by name."""
    if order.people:
        places = found.forms[0]
        serials = _serials(f"{plan.id}/{order.seed}", len(order.people))
        whose = [Form("A", serial, person, ()) for serial, person in zip(serials, order.people, strict=True)]
        return tuple(_filled(form, places, bank, plan, order, drawn) for form in whose)
    return tuple(
        _filled(Form(letter, letter, "", ()), places, bank, plan, order, drawn)
        for letter, places in zip(LETTERS, found.forms, strict=False)
    )


def _serials(seed: str, many: int) -> list[str]:
    """So many different numbers of papers, which say nothing of whose they are; one mistyped is hardly another's."""
    dice = Random(f"{seed}/serials").random
    found: dict[str, None] = {}
    while len(found) < many:
        found["".join(_SERIAL[int(dice() * len(_SERIAL))] for _ in range(_SERIAL_LENGTH))] = None
    return list(found)


def _filled(
    form: Form, places: Sequence[Slot], bank: Usable, plan: Blueprint, order: Order, drawn: dict[str, Question]
) -> Form:
    """The form with its questions: drawn until every one has options and the keys stand as chance would have them."""
    ordered = _in_order(places, bank.pool)

    def items(attempt: int) -> tuple[Item, ...]:
        dice = Random(f"{plan.id}/{order.seed}/{form.serial}/{attempt}").random
        taken = [(bank.pool[place.candidate], plan.sections[place.section]) for place in ordered]
        return tuple(_item(bank, one, section, dice, drawn) for one, section in taken)

    draws = (items(attempt) for attempt in range(REDRAWS))
    found = next((each for each in draws if acceptable([item.key for item in each])), None)
    return form._replace(items=found or items(0))


def _in_order(places: Sequence[Slot], pool: Sequence[Candidate]) -> list[Slot]:
    """Sections in their order; inside each the easier questions first, as a candidate is led in.

    Of two cases of a family that are equally hard, one comes after everything else that is.
    """
    met: set[str] = set()

    def key(place: Slot) -> tuple[int, float, bool, str]:
        one = pool[place.candidate]
        again = one.id in met
        met.add(one.id)
        return place.section, -one.facility, again, one.id

    keys = {place: key(place) for place in sorted(places)}
    return sorted(keys, key=keys.__getitem__)


def _item(
    bank: Usable, one: Candidate, section: SectionPlan, dice: Callable[[], float], made: dict[str, Question]
) -> Item:
    entry = bank.entries[one.id]
    for _ in range(REDRAWS):
        seed = int(dice() * SEEDS)
        if isinstance(entry, Family):
            seed = seed_of(entry.cases, one.case, seed)
        question = question_of(bank.near, entry, seed, section.exercise)
        if by_letter(question.kind):  # a seed may ask for a typed number: a paper is answered with letters
            digest = digest_of(bank.near, entry, section.exercise)
            made[question.name] = question
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
