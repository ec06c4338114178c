"""The one table of routes: what anybody may ask for, and what only somebody who is in."""

from __future__ import annotations

from collections.abc import Callable

from starlette.responses import Response

from quizzer.web.phone.enter import enter
from quizzer.web.phone.greet import greet
from quizzer.web.phone.send_file import send_file, send_manifest, send_worker
from quizzer.web.phone.send_pack import send_pack
from quizzer.web.phone.show_guides import show_guide, show_guides
from quizzer.web.phone.show_more import show_more
from quizzer.web.phone.show_progress import show_progress
from quizzer.web.phone.show_ready import show_ready
from quizzer.web.phone.show_study import show_study
from quizzer.web.phone.show_weak import show_weak
from quizzer.web.phone.start import start
from quizzer.web.phone.take_events import take_events
from quizzer.web.visit import Visit, WebCall

OpenHandler = Callable[[WebCall], Response]
Handler = Callable[[Visit], Response]

OPEN: tuple[tuple[str, str, OpenHandler], ...] = (
    ("GET", "/enter", enter),
    ("GET", "/hello", greet),
    ("GET", "/sw.js", send_worker),
    ("GET", "/manifest.webmanifest", send_manifest),
    ("GET", "/static/{version}/{name:path}", send_file),
)
ROUTES: tuple[tuple[str, str, Handler], ...] = (
    ("GET", "/", start),
    ("GET", "/study", show_study),
    ("GET", "/study/pack", send_pack),
    ("POST", "/study/events", take_events),
    ("GET", "/progress", show_progress),
    ("GET", "/more", show_more),
    ("GET", "/weak", show_weak),
    ("GET", "/ready", show_ready),
    ("GET", "/guides", show_guides),
    ("GET", "/guides/{name}", show_guide),
)
