"""Signing out."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.web.render import sentence
from quizzer.web.visit import Visit


def leave(visit: Visit) -> Response:
    """The session ended, its cookie taken away."""
    visit.site.sessions.leave(visit.cookies)
    gone = sentence(visit.site, 200, "Signed out", "`quizzer web` prints a new link when it is started again")
    gone.headers["Set-Cookie"] = visit.site.sessions.set_cookie("")
    return gone
