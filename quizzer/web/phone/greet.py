"""What this is: asked by a second program that finds the port taken."""

from __future__ import annotations

from starlette.responses import PlainTextResponse, Response

from quizzer.web.visit import WebCall

GREETING = "quizzer"


def greet(_: WebCall) -> Response:
    """The name of the program."""
    return PlainTextResponse(GREETING)
