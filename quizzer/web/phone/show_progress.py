"""What was done so far."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.pages.progress import progress_page
from quizzer.web.menu import PROGRESS
from quizzer.web.render import page_answer
from quizzer.web.visit import Visit
from quizzer.workflows.forecast.progress import progress


def show_progress(visit: Visit) -> Response:
    """The page of progress."""
    return page_answer(visit, progress_page(progress(visit.world, visit.trainee)), PROGRESS.path)
