"""A mock paper for one person without a tutor: made when it is asked for, and marked as soon as it is handed in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.shelf import Shelf
from quizzer.marks.answers import AnswerRow, Sheet
from quizzer.paper.pool import Facilities
from quizzer.paper.record import Paper
from quizzer.store import ABSENT, Correction, Script, Sitting, Trainee
from quizzer.store.names import name_key
from quizzer.workflows.forecast.readiness import Readiness, ready_for
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.marking import mark_all
from quizzer.workflows.papers.papers import Order, make_paper
from quizzer.workflows.papers.person_result import PersonReport, person_report
from quizzer.workflows.papers.reporting import gather
from quizzer.workflows.papers.script_marking import Handed
from quizzer.workflows.papers.since_made import EntryChange, changes_since
from quizzer.workflows.ruled import rulings_of
from quizzer.workflows.world import World


class Marked(NamedTuple):
    """A paper of one's own with what it says, and what could be said of the mark before; None where that is past.

    `corrections` are those of the paper, `counted` has the questions of its form that count and the pass mark, and
    `changes` the entries that are not what they were.
    """

    paper: Paper
    report: PersonReport
    sheet: Sheet
    before: Readiness | None
    corrections: tuple[Correction, ...]
    counted: Mapping[str, tuple[int, int]]
    changes: Sequence[EntryChange]


class Wish(NamedTuple):
    """A paper for one person, wished for: all that making it needs of the store, so that a thread may make it."""

    plan: Blueprint
    order: Order
    today: date
    observed: Facilities
    recent: frozenset[tuple[str, int]]

    def made(self, shelf: Shelf) -> Paper:
        """The paper, not kept yet. Raises Refused where the bank serves none."""
        return make_paper(shelf, self.plan, self.order, self.today, self.observed, self.recent).paper


def own_paper(world: World, trainee: Trainee, plan: Blueprint) -> Paper:
    """The paper of this plan that the trainee has begun and not finished; else a new one, made for them alone.

    Raises Refused where it serves no paper.
    """
    if begun := begun_paper(world, trainee, plan):
        return begun
    paper = wished(world, trainee, plan).made(world.shelf)
    world.store.papers.keep(paper)
    return paper


def wished(world: World, trainee: Trainee, plan: Blueprint) -> Wish:
    """A new paper of this plan; questions of their earlier papers are left out while the bank allows."""
    before = {(item.entry, item.seed) for paper in _own(world, trainee) for form in paper.forms for item in form.items}
    recent = frozenset(before | world.store.papers.recent_questions([trainee.name]))
    order = Order(1, 0, world.seed(), "", False, (trainee.name,))
    return Wish(plan, order, world.now().date(), world.store.papers.facilities(), recent)


def begun_paper(world: World, trainee: Trainee, plan: Blueprint) -> Paper | None:
    """The paper of this plan that the trainee has begun and that is not marked yet."""
    for paper in _own(world, trainee):
        if paper.blueprint == plan.id and sitting_of(world, trainee, paper) and not _scripts(world, trainee, paper):
            return paper
    return None


def sitting_of(world: World, trainee: Trainee, paper: Paper) -> Sitting | None:
    """The trainee at this paper, where they have begun it."""
    return next((one for one in world.store.papers.sittings(paper.id) if one.trainee == trainee.id), None)


def mark_own(world: World, trainee: Trainee, plan: Blueprint, paper: Paper, sitting: Sitting) -> Marked:
    """The paper as handed in, marked and explained; its answers are kept as those of every paper are."""
    before = ready_for(world, trainee, plan)  # marking changes what it says
    form = paper.form(sitting.form)
    at = sitting.submitted_at or world.now()
    making = Making(world.shelf, paper)
    mark_all(world, paper, making, (), [Handed(trainee.id, trainee.name, form, sitting.answers, "screen", at)])
    return _told(world, paper, AnswerRow(trainee.name, form.serial, tuple(sitting.answers)), before)


def marked_before(world: World, trainee: Trainee, plan: str) -> Script | None:
    """The answers to the paper of this plan that the trainee had marked last. The bank need not have the plan still."""
    scripts = [
        script
        for paper in _own(world, trainee)
        if paper.blueprint == plan
        for script in _scripts(world, trainee, paper)
    ]
    return max(scripts, key=lambda one: one.marked_at, default=None)


def marked_plans(world: World, trainee: Trainee) -> Mapping[str, str]:
    """Every plan of which the trainee had a paper marked, by its id, with the title of a paper."""
    return {paper.blueprint: paper.title for paper in _own(world, trainee) if _scripts(world, trainee, paper)}


def told_again(world: World, trainee: Trainee, script: Script, before: Readiness | None = None) -> Marked:
    """What a paper of their own says that was marked before, by what was corrected and ruled since.

    Whatever became of the bank: raises Refused only for a record of before papers kept their questions.
    """
    paper = next(one for one in _own(world, trainee) if one.id == script.paper)
    answers = AnswerRow(trainee.name, script.form, tuple(script.answers), script.origin == ABSENT)
    return _told(world, paper, answers, before)


def _told(world: World, paper: Paper, answers: AnswerRow, before: Readiness | None) -> Marked:
    corrections = world.store.corrections.of_paper(paper.id)
    sat = gather(world.shelf, paper, [answers], rulings_of(corrections))
    counted = {form: (len(made), sat.pass_mark(form)) for form, made in sat.questions.items()}
    whole = len(sat.questions[answers.form]) == len(paper.form(answers.form).items)
    comparable = whole and not answers.absent  # what was expected was the mark of all its questions, sat
    return Marked(
        paper,
        person_report(sat, sat.sheets[0]),
        sat.sheets[0],
        before if comparable else None,
        corrections,
        counted,
        changes_since(world.shelf, paper),
    )


def _own(world: World, trainee: Trainee) -> list[Paper]:
    """The papers that were made for the trainee alone."""
    return [paper for paper in world.store.papers.every() if _is_for(paper, trainee)]


def _is_for(paper: Paper, trainee: Trainee) -> bool:
    return [name_key(form.person) for form in paper.forms] == [name_key(trainee.name)]


def _scripts(world: World, trainee: Trainee, paper: Paper) -> list[Script]:
    return [one for one in world.store.papers.scripts(paper.id) if one.trainee == trainee.id]
