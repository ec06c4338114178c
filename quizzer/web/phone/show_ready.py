"""The mark to expect on the exam day."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.pages.ready import ready_page
from quizzer.web.menu import READY
from quizzer.web.render import page_answer
from quizzer.web.visit import Visit
from quizzer.workflows.forecast.readiness import ready_for


def show_ready(visit: Visit) -> Response:
    """The page of readiness."""
    found = ready_for(visit.world, visit.trainee, visit.blueprint())
    return page_answer(visit, ready_page(found, visit.world.shelf.topics()), READY.path)
