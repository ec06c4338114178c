"""What waits to be mended."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.pages.mistakes import mistakes_page
from quizzer.web.menu import MISTAKES
from quizzer.web.render import page_answer
from quizzer.web.visit import Visit
from quizzer.workflows.study.mistaken import waiting


def show_mistakes(visit: Visit) -> Response:
    """The page of mistakes."""
    found = waiting(visit.world, visit.trainee)
    return page_answer(visit, mistakes_page(visit.trainee.name, found), MISTAKES.path)
