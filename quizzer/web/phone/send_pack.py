"""The questions of the next sessions, to be taken along."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from itertools import chain, islice, repeat

from starlette.responses import Response, StreamingResponse

from quizzer.errors import QuizzerError, UsageError
from quizzer.schedule.pacing import MINUTES, last_begun
from quizzer.store import Trainee
from quizzer.web.packs import PackWords, pack_parts
from quizzer.web.visit import Visit
from quizzer.workflows.study.keeping import ROAD_MINUTES, kept_topics
from quizzer.workflows.study.mistaken import like, to_mend
from quizzer.workflows.study.pack import packed

_LONGEST = 240
_TOGETHER = 8  # questions


def send_pack(visit: Visit) -> Response:
    """A pack, by the wishes of the address: `minutes`, `topic`, `weak`, `mistakes`, `like`, `keep`.

    Each question is on its way once it is drawn. With `begun` there is the first alone: pages from before questions
    came one by one ask for that first.
    """
    parts = pack_of(visit, visit.query, begun="begun" in visit.query)
    first = [*islice(parts, 2)]  # here, where a wish that cannot be met is told; the start has no question
    text = chain(first, _in_turn(visit, parts))
    return StreamingResponse(text, media_type="application/json", headers={"Cache-Control": "no-store"})


def _in_turn(visit: Visit, parts: Iterator[str]) -> Iterator[str]:
    """The parts, between which others have their turn. After a refusal they end, and make no pack.

    Few come at once where somebody may wait for them, more behind those: together they are sent in fewer bytes.
    """
    with suppress(QuizzerError):
        for many in chain((1, 2), repeat(_TOGETHER)):
            with visit.site.turn:
                part = "".join(islice(parts, many))
            if not part:
                return
            yield part


def pack_of(visit: Visit, wishes: Mapping[str, str], *, begun: bool) -> Iterator[str]:
    """The pack of these wishes, in parts. Raises UsageError, NotFound and Refused where they cannot be met."""
    world, trainee, keep = visit.world, visit.trainee, "keep" in wishes
    minutes, topics = _minutes(trainee, wishes, keep=keep), _topics(visit, wishes, keep=keep)
    questions = packed(world, trainee, minutes, topics, _only(visit, wishes), keep=keep)
    words = PackWords(world.shelf.topics(), world.shelf.terms())
    return pack_parts(trainee, questions, words, world.now(), last_begun(minutes), begun=begun)


def _minutes(trainee: Trainee, wishes: Mapping[str, str], *, keep: bool) -> float:
    """How long a session is. Raises UsageError."""
    usual = ROAD_MINUTES if keep else trainee.minutes or MINUTES
    try:
        found = float(wishes.get("minutes", usual))
    except ValueError:
        found = 0.0
    if not 0 < found <= _LONGEST:
        raise UsageError("the minutes are no time to study", mend=f"ask for 1 to {_LONGEST}")
    return found


def _topics(visit: Visit, wishes: Mapping[str, str], *, keep: bool) -> tuple[str, ...]:
    if keep:
        return kept_topics(visit.world.shelf)
    if "weak" in wishes:
        from quizzer.workflows.forecast.weakness import weak_parts  # only this wish opens the statistics

        return tuple(weak_parts(visit.world, visit.trainee, visit.blueprint()))
    return tuple(filter(None, [wishes.get("topic", "").strip("/")]))


def _only(visit: Visit, wishes: Mapping[str, str]) -> frozenset[str] | None:
    if "mistakes" in wishes:
        return to_mend(visit.world, visit.trainee)
    return like(visit.world.shelf, wishes["like"]) if wishes.get("like") else None
