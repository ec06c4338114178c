"""The questions of the next sessions, to be taken along."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.errors import UsageError
from quizzer.web.packs import pack_text
from quizzer.web.visit import Visit
from quizzer.workflows.study.keeping import ROAD_MINUTES, kept_topics
from quizzer.workflows.study.mistaken import like, to_mend
from quizzer.workflows.study.pack import packed
from quizzer.workflows.study.wishes import MINUTES

_LONGEST = 240


def send_pack(visit: Visit) -> Response:
    """A pack, by the wishes of the address: `minutes`, `topic`, `weak`, `mistakes`, `like`, `keep`."""
    world, trainee, query = visit.world, visit.trainee, visit.query
    keep = "keep" in query
    questions = packed(world, trainee, _minutes(visit, keep=keep), _topics(visit, keep=keep), _only(visit), keep=keep)
    text = pack_text(trainee, questions, world.shelf.topics(), world.now())
    return Response(text, media_type="application/json", headers={"Cache-Control": "no-store"})


def _minutes(visit: Visit, *, keep: bool) -> float:
    """How long a session is. Raises UsageError."""
    usual = ROAD_MINUTES if keep else visit.trainee.minutes or MINUTES
    try:
        found = float(visit.query.get("minutes", usual))
    except ValueError:
        found = 0.0
    if not 0 < found <= _LONGEST:
        raise UsageError("the minutes are no time to study", mend=f"ask for 1 to {_LONGEST}")
    return found


def _topics(visit: Visit, *, keep: bool) -> tuple[str, ...]:
    if keep:
        return kept_topics(visit.world.shelf)
    if "weak" in visit.query:
        from quizzer.workflows.forecast.weakness import weak_parts  # only this wish opens the statistics

        return tuple(weak_parts(visit.world, visit.trainee, visit.blueprint()))
    return tuple(filter(None, [visit.query.get("topic", "").strip("/")]))


def _only(visit: Visit) -> frozenset[str] | None:
    if "mistakes" in visit.query:
        return to_mend(visit.world, visit.trainee)
    return like(visit.world.shelf, visit.query["like"]) if visit.query.get("like") else None
