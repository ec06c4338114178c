"""The desk of who sits a paper of their own: it stands here as long as the program runs, and its clock with it."""

from __future__ import annotations

from collections.abc import Callable

from starlette.responses import RedirectResponse, Response

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.errors import NotFound, QuizzerError
from quizzer.web.making import made
from quizzer.web.menu import PAPERS
from quizzer.web.visit import Visit
from quizzer.workflows.papers.alone import begun_paper, mark_own, sitting_of
from quizzer.workflows.papers.sitting import Desk, sit
from quizzer.workflows.study.wishes import assessments

NOT_BEGUN = "this paper has not been begun"
BEGIN_IT = "begin it from the list of mock papers"


def plan_named(visit: Visit) -> Blueprint:
    """The plan in the path: one of the bank, and no file. Raises NotFound."""
    name = visit.path["plan"]
    found = next((plan for plan in assessments(visit.world.shelf) if plan.id == name), None)
    if found is None:
        raise NotFound(f"no paper {name[:40]!r}", mend="choose one of the list")
    return found


def path_of(plan: Blueprint, place: str = "") -> str:
    """Where a paper is, or a part of it."""
    return f"{PAPERS.path}/{plan.id}" + (f"/{place}" if place else "")


def begin(visit: Visit, plan: Blueprint) -> Response:
    """The paper gone on with, or made; while it is being made, where one waits for it.

    One that was handed in and not marked is marked now.
    """
    paper = begun_paper(visit.world, visit.trainee, plan) or made(visit, plan)
    if paper is None:
        return RedirectResponse(path_of(plan, "making"), 303)
    found = sitting_of(visit.world, visit.trainee, paper)
    if found is not None and found.submitted_at:
        return _marked(visit, plan)
    visit.site.desks[visit.trainee.id, plan.id] = sit(visit.world, paper, visit.trainee, None, None)
    return RedirectResponse(path_of(plan, "rules"), 303)


def is_begun(visit: Visit, plan: Blueprint) -> bool:
    """Whether the paper is being made, or there."""
    being_made = (visit.trainee.id, plan.id) in visit.site.making
    return being_made or begun_paper(visit.world, visit.trainee, plan) is not None


def at_desk(visit: Visit, act: Callable[[Blueprint, Desk], Response]) -> Response:
    """What comes of an act at the desk; when the time is up, of the paper as it was handed in.

    After a refusal the desk is put away: the next look begins from what was kept.
    """
    plan = plan_named(visit)
    desk = _desk(visit, plan)
    try:
        if desk.sitting.submitted_at or desk.left() <= 0:
            return hand_in(visit, plan, desk)
        return act(plan, desk)
    except QuizzerError:
        visit.site.desks.pop((visit.trainee.id, plan.id), None)
        raise


def hand_in(visit: Visit, plan: Blueprint, desk: Desk) -> Response:
    """The paper handed in, marked at once, and where its result is."""
    if not desk.sitting.submitted_at:
        desk.hand_in()
    return _marked(visit, plan)


def leave(visit: Visit, plan: Blueprint, desk: Desk) -> None:
    """The clock stopped, until the paper is begun again."""
    desk.leave()
    visit.site.desks.pop((visit.trainee.id, plan.id), None)


def _desk(visit: Visit, plan: Blueprint) -> Desk:
    """The desk that stands here, or one where they had stopped. Raises NotFound where nothing was begun."""
    key = (visit.trainee.id, plan.id)
    if key not in visit.site.desks:
        paper = begun_paper(visit.world, visit.trainee, plan)
        if paper is None:
            raise NotFound(NOT_BEGUN, mend=BEGIN_IT)
        visit.site.desks[key] = sit(visit.world, paper, visit.trainee, None, None)
    return visit.site.desks[key]


def _marked(visit: Visit, plan: Blueprint) -> Response:
    paper = begun_paper(visit.world, visit.trainee, plan)
    found = paper and sitting_of(visit.world, visit.trainee, paper)
    if paper and found:
        marked = mark_own(visit.world, visit.trainee, blueprint(visit.world.shelf, plan.id), paper, found)
        if marked.before:
            visit.site.expected[visit.trainee.id, paper.id] = marked.before
    visit.site.desks.pop((visit.trainee.id, plan.id), None)
    return RedirectResponse(path_of(plan, "result"), 303)
