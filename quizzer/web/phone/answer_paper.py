"""What is done at a question of a mock paper: kept at once, then on to where the button leads."""

from __future__ import annotations

from starlette.responses import RedirectResponse, Response

from quizzer.bank.blueprints import Blueprint
from quizzer.web.forms import DeskWish, desk_wish_of, fields_of
from quizzer.web.menu import PAPERS
from quizzer.web.phone import at_desk
from quizzer.web.visit import Visit
from quizzer.workflows.papers.sitting import Desk


def answer_paper(visit: Visit) -> Response:
    """Keep the letter chosen, and go where the button leads."""

    def act(plan: Blueprint, desk: Desk) -> Response:
        wish = desk_wish_of(fields_of(visit.body), desk)
        _keep(desk, wish)
        if wish.does == "leave":
            at_desk.leave(visit, plan, desk)
            return RedirectResponse(PAPERS.path, 303)
        over = wish.does == "overview" or (wish.does == "next" and desk.at + 1 == len(desk.questions))
        if not over:
            _move(desk, wish)
        return RedirectResponse(at_desk.path_of(plan, "overview" if over else ""), 303)

    return at_desk.at_desk(visit, act)


def hand_in(visit: Visit) -> Response:
    """Hand the paper in; nothing can be changed afterwards."""
    return at_desk.at_desk(visit, lambda plan, desk: at_desk.hand_in(visit, plan, desk))


def _keep(desk: Desk, wish: DeskWish) -> None:
    """The letter for the question that was on the screen: another window may have gone on since."""
    if wish.at != desk.at:
        desk.go(wish.at)
    letter = "" if wish.does == "clear" else wish.letter or desk.chosen
    if letter != desk.chosen:
        desk.answer(letter)


def _move(desk: Desk, wish: DeskWish) -> None:
    match wish.does:
        case "next":
            desk.go(desk.at + 1)
        case "before":
            desk.go(desk.at - 1)
        case "flag":
            desk.flag()
        case "go":
            desk.go(wish.to)
        case _:
            pass
