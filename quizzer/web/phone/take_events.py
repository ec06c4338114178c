"""Answers and disputes that come from a phone: what is kept, and what never will be, by their ids."""

from __future__ import annotations

import json
from typing import Final

from starlette.responses import JSONResponse, Response

from quizzer.errors import Refused, UsageError
from quizzer.pages.packed import marked_otherwise
from quizzer.web.visit import Visit
from quizzer.workflows.study.arrivals import NOT_THEIRS, Accepted, arrive

MOST: Final = 500  # events at a time
_SEND = "send at most 500 answers at a time, as the page does"


def take_events(visit: Visit) -> Response:
    """The server's word on each event. Raises Refused for another trainee's batch, UsageError for none at all."""
    trainee, events = _batch(visit.body)
    if trainee != visit.trainee.id:
        raise NOT_THEIRS
    found = arrive(visit.world, visit.trainee, events)
    word = {
        "accepted": [_word(one) for one in found.accepted],
        "rejected": [one._asdict() for one in found.rejected],
        "now": visit.world.now().isoformat(timespec="milliseconds"),
    }
    return JSONResponse(word, headers={"Cache-Control": "no-store"})


def _word(one: Accepted) -> dict[str, object]:
    """That an event is kept; where the page marked otherwise, what is said of it."""
    if one.agreed:
        return one._asdict()
    return one._asdict() | {"said": marked_otherwise(one.entry, right=bool(one.right))}


def _batch(body: bytes) -> tuple[str, list[object]]:
    try:
        data = json.loads(body)
    except ValueError:  # no JSON, or no text at all
        data = None
    except RecursionError:
        raise Refused("the answers are nested too deeply", mend=_SEND) from None
    events = data.get("events") if isinstance(data, dict) else None
    if not isinstance(data, dict) or not isinstance(events, list) or len(events) > MOST:
        raise UsageError("these are no answers", mend=_SEND)
    return str(data.get("trainee")), events
