"""The one-time link: whoever brings its key is in from then on."""

from __future__ import annotations

from starlette.responses import RedirectResponse, Response

from quizzer.web.menu import STUDY
from quizzer.web.render import sentence
from quizzer.web.visit import WebCall

_AGAIN = "stop `quizzer web` with Ctrl-C and start it again: it prints a new link"


def enter(call: WebCall) -> Response:
    """The first page with a session; for a link used before, the first page to who has a session already."""
    sessions = call.site.sessions
    first = RedirectResponse(STUDY.path, 303, headers={"Cache-Control": "no-store"})
    if cookie := sessions.enter(call.query.get("key", ""), call.cookies):
        first.headers["Set-Cookie"] = sessions.set_cookie(cookie)
        return first
    if sessions.trainee_of(call.cookies) is not None:
        return first
    return sentence(call.site, 403, "This link has been used, or is not the last one printed", _AGAIN)
