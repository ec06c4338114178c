"""Making a mock paper from a blueprint, and making its questions again from its record."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Mapping
from datetime import date
from random import Random
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.bank.entries import Entry
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import ledger
from quizzer.editions import NOT_TIED, is_tied
from quizzer.errors import BankError, NotFound, Refused
from quizzer.paper.assembly import assemble
from quizzer.paper.enemies import enemies
from quizzer.paper.pool import Facilities, difference_doubt
from quizzer.paper.reading_load import uneven
from quizzer.paper.record import Form, Paper, Section
from quizzer.paper.record_reading import is_file_name
from quizzer.question.question import Question
from quizzer.workflows.exercises import Near, digest_of, question_of, wanted
from quizzer.workflows.papers.expected_lines import with_lines
from quizzer.workflows.papers.filling import LETTERS, filled, lines_in, words_in
from quizzer.workflows.papers.kept_questions import Kept, kept_question, kept_questions, packed
from quizzer.workflows.papers.usable import EarlierAnswers, usable

MOST_FORMS = len(LETTERS)


class Order(NamedTuple):
    """What a tutor asks for: forms, questions (0: as the blueprint says), seed, an edition, only signed-off entries."""

    forms: int
    questions: int
    seed: int
    edition: str
    signed_only: bool
    people: tuple[str, ...] = ()  # with names, everybody gets the same entries with numbers of their own


class Made(NamedTuple):
    """A paper, how even its forms are, and questions of recent papers it had to use.

    The gaps are marks at the worst ability, before and after the forms were evened out; `uneven` is how far apart the
    forms are in words, as a share of their mean, and `uneven_lines` in lines as printed, of papers with several forms
    (pictures and record sheets are as high as so many lines). `doubt` is how many marks the true difference of two
    forms may be more or less, 19 times in 20, by how little is known of their questions, and `answers` how many were
    seen of the one in the middle.
    """

    paper: Paper
    gap_before: float
    gap: float
    uneven: float
    repeated: tuple[str, ...]
    doubt: float = 0.0
    answers: int = 0
    uneven_lines: float = 0.0


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
    forms_apart = 1 if order.people else order.forms
    if forms_apart > 1:  # one form alone is even with nothing
        bank = with_lines(bank, plan)
    found = assemble(plan, bank.pool, enemies(bank.pool), forms_apart, dice)
    drawn: dict[str, Question] = {}
    forms = filled(found, bank, plan, order.seed, order.people, drawn)
    edition = order.edition or _usual_edition(bank.entries, {item.entry for form in forms for item in form.items})
    asked = [[bank.pool[place.candidate] for place in form] for form in found.forms]
    taken = [one for form in asked for one in form]
    repeated = tuple(sorted(one.id for one in taken if one.used))
    record = _record(plan, order, edition, made_on, forms)
    wanted_names = {item.name for form in forms for item in form.items}
    kept = packed(question for name, question in sorted(drawn.items()) if name in wanted_names)
    seen = sorted(one.answers for one in taken)
    return Made(
        record._replace(questions=kept),
        found.gap_before,
        found.gap,
        uneven([sum(words_in(drawn[item.name]) for item in form.items) for form in forms]),
        repeated,
        difference_doubt(asked),
        seen[len(seen) // 2],
        uneven([lines_in(form.items, drawn) for form in forms]) if forms_apart > 1 else 0.0,
    )


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
