"""The guides inside the program."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.pages.guide import guides_page
from quizzer.web.menu import GUIDES
from quizzer.web.render import page_answer
from quizzer.web.visit import Visit
from quizzer.workflows.bank.guides import GUIDES as THERE
from quizzer.workflows.bank.guides import guide


def show_guides(visit: Visit) -> Response:
    """Which guides there are."""
    return page_answer(visit, guides_page(THERE), GUIDES.path)


def show_guide(visit: Visit) -> Response:
    """One of them. Raises NotFound."""
    return page_answer(visit, guide(visit.path["name"]), GUIDES.path)
