"""The headers that every answer carries."""

from __future__ import annotations

from starlette.types import ASGIApp, Message, Receive, Scope, Send

_RULES = {
    "default-src": "'none'",
    "script-src": "'self'",
    "style-src": "'self'",
    "img-src": "'self'",
    "font-src": "'self'",
    "connect-src": "'self'",
    "manifest-src": "'self'",
    "worker-src": "'self'",
    "form-action": "'self'",
    "base-uri": "'none'",
    "frame-ancestors": "'none'",
    "require-trusted-types-for": "'script'",
    # The one policy by which the page's own modules put fragments of this server into the page.
    "trusted-types": "quizzer",
}
POLICY = "; ".join(f"{name} {value}" for name, value in _RULES.items())
ALWAYS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
}
_FRESH = (b"cache-control", b"no-cache, private")
_PAIRS = [(name.lower().encode(), value.encode()) for name, value in ALWAYS.items()]


def with_headers(app: ASGIApp) -> ASGIApp:
    """The app, its answers with these headers; what says nothing of caching is asked for anew each time."""

    async def answer(scope: Scope, receive: Receive, send: Send) -> None:
        async def sent(message: Message) -> None:
            if message["type"] == "http.response.start":
                given = list(message["headers"])
                fresh = [] if any(name == b"cache-control" for name, _ in given) else [_FRESH]
                message = {**message, "headers": [*given, *fresh, *_PAIRS]}
            await send(message)

        await app(scope, receive, sent if scope["type"] == "http" else send)

    return answer
