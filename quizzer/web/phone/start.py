"""The first page."""

from __future__ import annotations

from starlette.responses import RedirectResponse, Response

from quizzer.web.menu import STUDY
from quizzer.web.visit import Visit


def start(_: Visit) -> Response:
    """Studying is what most people come for."""
    return RedirectResponse(STUDY.path, 303)
