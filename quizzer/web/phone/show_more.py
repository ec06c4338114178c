"""The places that the bar has no room for."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.web.menu import MORE, REST
from quizzer.web.render import answer
from quizzer.web.values import MorePage
from quizzer.web.visit import Visit


def show_more(visit: Visit) -> Response:
    """A list of them."""
    return answer(visit, MORE.name, MorePage(MORE.name, REST), MORE.path)
