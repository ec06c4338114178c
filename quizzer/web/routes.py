"""The one table of routes: what anybody may ask for, and what only somebody who is in."""

from __future__ import annotations

from collections.abc import Callable

from starlette.responses import Response

from quizzer.web.phone.answer_paper import answer_paper, hand_in
from quizzer.web.phone.change_settings import change_settings, show_settings
from quizzer.web.phone.enter import enter
from quizzer.web.phone.greet import greet
from quizzer.web.phone.leave import leave
from quizzer.web.phone.send_file import send_file, send_manifest, send_worker
from quizzer.web.phone.send_pack import send_pack
from quizzer.web.phone.show_entry import show_entry
from quizzer.web.phone.show_guides import show_guide, show_guides
from quizzer.web.phone.show_mistakes import show_mistakes
from quizzer.web.phone.show_more import show_more
from quizzer.web.phone.show_over import show_over
from quizzer.web.phone.show_plan import send_calendar, show_plan
from quizzer.web.phone.show_progress import show_progress
from quizzer.web.phone.show_ready import show_ready
from quizzer.web.phone.show_study import show_study
from quizzer.web.phone.show_weak import show_weak
from quizzer.web.phone.show_words import show_words
from quizzer.web.phone.sit_paper import (
    begin_paper,
    show_overview,
    show_papers,
    show_question,
    show_result,
    show_rules,
    wait_for_paper,
)
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
    ("GET", "/study/over", show_over),
    ("GET", "/progress", show_progress),
    ("GET", "/more", show_more),
    ("GET", "/weak", show_weak),
    ("GET", "/ready", show_ready),
    ("GET", "/plan", show_plan),
    ("GET", "/plan.ics", send_calendar),
    ("GET", "/mistakes", show_mistakes),
    ("GET", "/words", show_words),
    ("GET", "/entries/{name:path}", show_entry),
    ("GET", "/papers", show_papers),
    ("POST", "/papers/{plan}", begin_paper),
    ("GET", "/papers/{plan}", show_question),
    ("GET", "/papers/{plan}/making", wait_for_paper),
    ("GET", "/papers/{plan}/rules", show_rules),
    ("POST", "/papers/{plan}/answer", answer_paper),
    ("GET", "/papers/{plan}/overview", show_overview),
    ("POST", "/papers/{plan}/hand-in", hand_in),
    ("GET", "/papers/{plan}/result", show_result),
    ("GET", "/settings", show_settings),
    ("POST", "/settings", change_settings),
    ("POST", "/leave", leave),
    ("GET", "/guides", show_guides),
    ("GET", "/guides/{name}", show_guide),
)
