"""A mock paper of one's own on screen: the list of papers, the rules, a question, the overview, the result."""

from __future__ import annotations

from starlette.background import BackgroundTask
from starlette.responses import RedirectResponse, Response

from quizzer.bank.blueprints import Blueprint
from quizzer.blocks.page import Page
from quizzer.blocks.question import Choices
from quizzer.errors import NotFound
from quizzer.pages.alone import alone_page
from quizzer.pages.sitting import overview, place_page, start_page
from quizzer.question.replies import wanted
from quizzer.web.making import read_ahead
from quizzer.web.menu import PAPERS, PROGRESS, MenuPlace
from quizzer.web.phone.at_desk import BEGIN_IT, NOT_BEGUN, at_desk, begin, is_begun, path_of, plan_named
from quizzer.web.render import answer, article, page_answer, worded
from quizzer.web.values import DeskPage, OverviewPage, PaperOffer, PaperPast, PapersPage, SentencePage
from quizzer.web.visit import Visit
from quizzer.workflows.papers.alone import begun_paper, marked_before, marked_plans, told_again
from quizzer.workflows.papers.sitting import Desk
from quizzer.workflows.study.wishes import assessments

CLOCK = "js/clock.js"
ASK_AGAIN = 2  # seconds
MAKING = "The paper is being made"
MAKING_MEND = "it opens by itself in a few seconds. The clock does not run yet"
BEGIN = "Go to the question"


def show_papers(visit: Visit) -> Response:
    """Every paper that one studies for, whether it is begun and whether one was marked; and the results of others."""
    plans, marked = assessments(visit.world.shelf), marked_plans(visit.world, visit.trainee)
    lines = [
        PaperOffer(
            path=path_of(plan),
            title=plan.title,
            questions=plan.questions,
            minutes=plan.minutes,
            begun=begun_paper(visit.world, visit.trainee, plan) is not None,
            marked=plan.id in marked,
        )
        for plan in plans
    ]
    gone = marked.keys() - {plan.id for plan in plans}
    past = [PaperPast(f"{PAPERS.path}/{name}", title) for name, title in marked.items() if name in gone]
    found = answer(visit, PAPERS.name, PapersPage(PAPERS.name, lines, past), PAPERS.path)
    found.background = BackgroundTask(read_ahead, visit.site)  # making a paper needs the whole bank
    return found


def begin_paper(visit: Visit) -> Response:
    """The paper made, or gone on with."""
    return begin(visit, plan_named(visit))


def wait_for_paper(visit: Visit) -> Response:
    """The paper, once it is made; until then a page that says so, and asks again by itself."""
    plan = plan_named(visit)
    if not is_begun(visit, plan):  # looking alone begins nothing
        raise NotFound(NOT_BEGUN, mend=BEGIN_IT)
    found = begin(visit, plan)
    if found.headers["location"] != path_of(plan, "making"):
        return found
    page = answer(visit, plan.title, SentencePage(MAKING, worded(f"{plan.title}: {MAKING_MEND}")), PAPERS.path)
    page.headers["Refresh"] = str(ASK_AGAIN)
    return page


def show_rules(visit: Visit) -> Response:
    """What is sat, and under which rules; the clock runs."""

    def rules(plan: Blueprint, desk: Desk) -> Response:
        page = start_page(desk, visit.trainee.name)
        return page_answer(visit, page, PAPERS.path, [MenuPlace(path_of(plan), BEGIN)])

    return at_desk(visit, rules)


def show_question(visit: Visit) -> Response:
    """The question that is being looked at."""

    def question(plan: Blueprint, desk: Desk) -> Response:
        page = place_page(desk)
        asked = page._replace(blocks=[each for each in page.blocks if not isinstance(each, Choices)])
        values = DeskPage(
            path=path_of(plan, "answer"),
            article=article(asked),
            at=desk.at,
            last=desk.at + 1 == len(desk.questions),
            wanted=wanted(desk.question),
            options=[(option.label, worded(option.text)) for option in desk.question.options],
            chosen=desk.chosen,
            flagged=desk.flagged,
            left=desk.left(),
        )
        return answer(visit, page.title, values, PAPERS.path, modules=(CLOCK,))

    return at_desk(visit, question)


def show_overview(visit: Visit) -> Response:
    """What is unanswered and flagged, every question to go to, and handing in."""

    def looked(plan: Blueprint, desk: Desk) -> Response:
        page = Page(desk.paper.title, [*overview(desk)])
        missing, flags = desk.unanswered(), desk.flags()
        numbers = [(number, number in missing, number in flags) for number in range(1, len(desk.questions) + 1)]
        values = OverviewPage(path_of(plan), article(page), numbers, desk.left())
        return answer(visit, page.title, values, PAPERS.path, modules=(CLOCK,))

    return at_desk(visit, looked)


def show_result(visit: Visit) -> Response:
    """The mark and what it says of the paper that was marked last, by what the store says of it now.

    The paper keeps its questions: neither they nor its plan need be in the bank still.
    """
    script = marked_before(visit.world, visit.trainee, visit.path["plan"])
    if script is None:
        plan_named(visit)  # there is no such paper, or none that is marked
        return RedirectResponse(PAPERS.path, 303)
    before = visit.site.expected.get((visit.trainee.id, script.paper))
    found = told_again(visit.world, visit.trainee, script, before)
    return page_answer(visit, alone_page(found), PAPERS.path, [PAPERS, PROGRESS])
