"""The end of a session: what was done, and what tomorrow holds."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.pages.session import summary_page
from quizzer.web.menu import MISTAKES, PROGRESS, STUDY
from quizzer.web.render import page_answer
from quizzer.web.visit import Visit
from quizzer.workflows.study.summary import last_session


def show_over(visit: Visit) -> Response:
    """The summary of the answers that have arrived since the last pause."""
    page = summary_page(last_session(visit.world, visit.trainee), visit.world.now().date())
    return page_answer(visit, page, STUDY.path, [STUDY, MISTAKES, PROGRESS])
