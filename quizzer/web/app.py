"""The app: routes from the table, and around them the guard and the headers."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from starlette.types import ASGIApp, Receive, Scope, Send

from quizzer.errors import BankError, NotFound, QuizzerError, Refused, StoreError, UsageError
from quizzer.store import Trainee
from quizzer.web.guard import Refusal, body_of, refusal
from quizzer.web.headers import with_headers
from quizzer.web.render import sentence
from quizzer.web.routes import OPEN, ROUTES, Handler, OpenHandler
from quizzer.web.visit import Visit, WebCall, WebSite

STATUS: dict[type[QuizzerError], int] = {
    NotFound: 404,
    Refused: 409,
    UsageError: 422,
    BankError: 409,
    StoreError: 503,
}
PACKING = 6  # of 9: quicker than the last percents are worth
_ENTER = "open the link that `quizzer web` prints, or start `quizzer web` again for a new one"
_Endpoint = Callable[[Request], Awaitable[Response]]


def web_app(site: WebSite) -> ASGIApp:
    """The whole app for one site."""
    routes = [Route(path, _open(site, handler), methods=[method]) for method, path, handler in OPEN]
    routes += [Route(path, _private(site, handler), methods=[method]) for method, path, handler in ROUTES]

    async def no_page(_: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 404
        return sentence(site, status, "There is no such page", "go back, or choose a place below")

    async def bug(_: Request, __: Exception) -> Response:
        told = "send what the window of `quizzer web` shows to whoever looks after it"
        return sentence(site, 500, "Something went wrong in this program", told)

    app = Starlette(routes=routes, exception_handlers={HTTPException: no_page, Exception: bug})
    return with_headers(_guarded(GZipMiddleware(app, minimum_size=500, compresslevel=PACKING), site))


def _guarded(app: ASGIApp, site: WebSite) -> ASGIApp:
    async def answer(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http":
            headers = {name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]}
            if refused := refusal(scope["method"], headers, site.address):
                await _told(site, refused)(scope, receive, send)
                return
        await app(scope, receive, send)

    return answer


def _told(site: WebSite, refused: Refusal, name: str = "") -> Response:
    return sentence(site, refused.status, refused.words, refused.mend, name=name)


async def _call(site: WebSite, request: Request) -> WebCall | Response:
    """The request as handlers take it, or why it is refused."""
    body = await body_of(request)
    if isinstance(body, Refusal):
        return _told(site, body)
    cookies = request.headers.get("cookie", "")
    packed = "gzip" in request.headers.get("accept-encoding", "")
    return WebCall(site, request.path_params, dict(request.query_params), body, cookies, packed)


def _open(site: WebSite, handler: OpenHandler) -> _Endpoint:
    async def endpoint(request: Request) -> Response:
        call = await _call(site, request)
        return handler(call) if isinstance(call, WebCall) else call

    return endpoint


def _private(site: WebSite, handler: Handler) -> _Endpoint:
    """A handler for who is in; a QuizzerError becomes a page of its sentence."""

    def run(call: WebCall) -> Response:
        with site.turn:
            name = ""
            try:
                trainee = _who(call)
                if trainee is None:
                    return sentence(site, 401, "Nobody is signed in here", _ENTER)
                name = trainee.name
                return handler(Visit(site, call.path, call.query, call.body, call.cookies, call.gzip, trainee))
            except QuizzerError as error:
                return sentence(site, STATUS[type(error)], error.message, error.mend, name=name)

    async def endpoint(request: Request) -> Response:
        call = await _call(site, request)
        return await run_in_threadpool(run, call) if isinstance(call, WebCall) else call

    return endpoint


def _who(call: WebCall) -> Trainee | None:
    """The trainee of the session; None for no session, or where they were erased since."""
    wanted = call.site.sessions.trainee_of(call.cookies)
    if wanted is None:
        return None
    trainees = {one.id: one for one in call.site.world.store.trainees()}
    if wanted not in trainees:
        call.site.sessions.only(trainees)
    return trainees.get(wanted)
