"""The server: uvicorn on a listening socket, until Ctrl-C."""

from __future__ import annotations

import logging
import socket
from contextlib import suppress

import uvicorn

from quizzer.web.app import web_app
from quizzer.web.visit import WebSite

KEEP_ALIVE = 75  # seconds: longer than a page waits between two sendings
ENDING = 2  # seconds that answers being given have when it stops


class QuietServer(uvicorn.Server):
    """Says nothing of answers that it breaks off when it stops: a page asks for them again."""

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """End every connection."""
        logging.getLogger("uvicorn.error").setLevel(logging.CRITICAL)
        await super().shutdown(sockets)


def serve(site: WebSite, listener: socket.socket) -> None:
    """Serve the site until Ctrl-C."""
    config = uvicorn.Config(
        web_app(site),
        loop="asyncio",
        http="h11",
        ws="none",
        lifespan="off",
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=False,
        timeout_keep_alive=KEEP_ALIVE,
        timeout_graceful_shutdown=ENDING,
    )
    with suppress(KeyboardInterrupt):  # the signal comes again when all is closed
        QuietServer(config).run(sockets=[listener])
