"""What is weak, and the mistakes behind it."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.pages.weak import weak_page
from quizzer.web.menu import WEAK
from quizzer.web.render import page_answer
from quizzer.web.visit import Visit
from quizzer.workflows.bank.entries_under import wanted
from quizzer.workflows.forecast.weakness import weak_for


def show_weak(visit: Visit) -> Response:
    """The page of weak topics, or of one topic where the address names it."""
    topic = visit.query.get("topic", "").strip("/") or None
    if topic:
        wanted(visit.world.shelf, [topic])
    found = weak_for(visit.world, visit.trainee, visit.blueprint())
    return page_answer(visit, weak_page(found, topic), WEAK.path)
