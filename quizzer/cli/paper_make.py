"""`quizzer paper make` and `paper blueprint check`."""

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path
from random import randrange
from typing import NamedTuple

from quizzer.bankfiles.blueprint_files import blueprint, blueprint_names
from quizzer.blocks.words import count
from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import Banks, checked_seed, open_shelf, open_world
from quizzer.cli.paper_print import centre_named, variants
from quizzer.cli.screen import look_of, put
from quizzer.cli.started import as_started
from quizzer.errors import UsageError
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.papers.bank_capacity import MOST, Served, pool_of, served
from quizzer.workflows.papers.page_order import in_page_order
from quizzer.workflows.papers.papers import MOST_FORMS, Made, Order, make_paper
from quizzer.workflows.papers.pooling import measured_facilities
from quizzer.workflows.papers.writing import write_paper
from quizzer.workflows.study.wishes import day_named


class PaperWishes(NamedTuple):
    """The options of the command."""

    blueprint: str
    forms: int
    questions: int
    seed: int | None
    edition: str
    signed_only: bool
    group: str | None
    large_print: tuple[int, ...]
    wide_spaced: bool
    out: Path | None
    on: str | None
    centre: Path | None
    bank: Banks
    store: str | None


def make(wishes: PaperWishes) -> None:
    """Make the paper, keep its record, write its files, and say what was made."""
    _sensible(wishes)
    printed = variants(wishes.large_print, wishes.wide_spaced)
    head = centre_named(wishes.centre)
    today = datetime.now().astimezone().date()
    day = day_named(wishes.on, today) if wishes.on else today
    plan = blueprint(open_shelf(wishes.bank), wishes.blueprint)  # before a store is made for what cannot be
    with open_world(wishes.bank, wishes.store) as world:
        store, shelf = world.store, world.shelf
        people = tuple(store.groups.members(wishes.group)) if wishes.group else ()
        # one form alone is as hard as it is: only several have to be as hard as one another
        seen = measured_facilities(world, plan.id) if wishes.forms > 1 else store.papers.facilities()
        seed = wishes.seed if wishes.seed is not None else randrange(1, 10_000)
        order = Order(wishes.forms, wishes.questions, seed, wishes.edition, wishes.signed_only, people)
        made = make_paper(shelf, plan, order, day, seen, store.papers.recent_questions(people))
        made = made._replace(paper=in_page_order(made.paper))
        folder = wishes.out or Path(made.paper.id)
        names = write_paper(shelf, made.paper, folder, printed, store.papers.keep, head, alone=False)
    _tell(made, folder, names)


def check(name: str | None, bank: Banks) -> int:
    """Say what the bank can serve of a blueprint, or of all; 1 when one cannot be served at all."""
    shelf = open_shelf(bank)
    plans = [blueprint(shelf, each) for each in ([name] if name else blueprint_names(shelf))]
    pool = pool_of(shelf, *plans)
    found = [served(plan, pool) for plan in plans]
    for each in found:
        _tell_served(each)
    return FINE if found and all(each.forms for each in found) else FINDINGS


def _sensible(wishes: PaperWishes) -> None:
    if not 1 <= wishes.forms <= MOST_FORMS:
        raise UsageError(f"--forms {wishes.forms} cannot be made", mend=f"ask for 1 to {MOST_FORMS}")
    if not 0 <= wishes.questions <= 200:
        raise UsageError(f"--questions {wishes.questions} is no length for a paper", mend="ask for 1 to 200")
    checked_seed(wishes.seed)
    if wishes.group and wishes.forms > 1:
        raise UsageError("--per-trainee gives everybody the same entries", mend="leave --forms out")


def _tell(made: Made, folder: Path, names: list[str]) -> None:
    paper, page = made.paper, Canvas(look_of(sys.stdout))
    asked, forms = len(paper.forms[0].items), count(len(paper.forms), "form")
    page.text(f"Paper {paper.id}: {forms} of {asked} questions, {paper.minutes} minutes.", style="bold")
    page.text(f"Pass mark {paper.pass_mark} of {asked}. Edition followed: {paper.edition}.")
    seen = f"{count(made.answers, 'answer')} (of the one in the middle)" if made.answers else "hardly any answers"
    if len(paper.forms) > 1 and not paper.forms[0].person:
        page.text(
            f"The forms' expected marks differ by {made.gap:.2f} of a mark at the worst of five levels of ability "
            f"({made.gap_before:.2f} before they were evened out), give or take {made.doubt:.1f} marks, 19 times in "
            f"20: that is how little is known of their questions, each by its judged difficulty and {seen}. Their "
            f"words differ by {100 * made.uneven:.0f} %, their lines on paper by {100 * made.uneven_lines:.0f} %, and "
            "they have as many calculations as one another."
        )
    if made.repeated:
        page.text(f"{len(made.repeated)} questions of recent papers had to be used again: the bank has no others.")
    page.gap()
    page.text(f"In {folder}/:")
    for name in names:
        page.text(name, indent=2)
    if paper.forms[0].person:
        page.gap()
        page.text(as_started(f"`quizzer paper print {folder}` writes each paper, answer sheet and mark scheme alone."))
    put(page)


def _tell_served(found: Served) -> None:
    page = Canvas(look_of(sys.stdout))
    page.heading(found.blueprint.title, f"{found.blueprint.questions} questions, {found.blueprint.minutes} min")
    for section in found.sections:
        asked = f"{section.title}: {section.questions} a form; {section.cases} questions of"
        page.text(f"{asked} {section.entries} entries, {section.calculations} of them calculations", indent=2, hang=4)
    most = f"{found.forms} or more" if found.forms == MOST else str(found.forms)
    page.text(f"Parallel forms the bank can serve: {most}", style="bold")
    page.gap()
    put(page)
