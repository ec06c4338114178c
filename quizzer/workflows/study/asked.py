"""A question as it was put in a session, what its answer led to, and the review that keeps it."""

from __future__ import annotations

from datetime import date, datetime

from quizzer.question.question import Mark, Question
from quizzer.question.replies import Reply
from quizzer.schedule import Confidence, Memory, Review
from quizzer.schedule.pacing import Help
from quizzer.values import NamedTuple


class Asked(NamedTuple):
    """A question as it was put. Its `id` becomes the review's, so that recording twice records once.

    `before` is the memory as it was then: two sessions with one question on their screens advance it once.
    """

    id: str
    question: Question
    drill: bool
    before: Memory | None
    at: datetime
    help: Help | None = None
    lines: int = 0  # of the working, where they are asked one by one


class Result(NamedTuple):
    """What an answer led to: its mark and quality, when the entry comes back, whether and how it is asked again."""

    mark: Mark
    quality: int
    back: date | None
    again: bool
    drill: bool
    help: Help | None = None
    going_on: bool = False  # the next line of the same working is asked now


def review_of(
    trainee: str,
    asked: Asked,
    reply: Reply,
    marked: Mark,
    confidence: Confidence | None,
    found: int,
    now: datetime,
) -> Review:
    """The review of an answer of quality `found`."""
    question = asked.question
    return Review(
        id=asked.id,
        trainee=trainee,
        entry=question.id,
        topic=question.topic,
        seed=question.seed,
        digest=question.head.digest,
        asked=question.as_text,
        reply=reply.text,
        right=marked.right,
        rounded=marked.rounded,
        slip=marked.slip,
        confidence=confidence,
        quality=found,
        drill=asked.drill,
        answered_at=now,
        day=now.date(),
        seconds=max(0, int((now - asked.at).total_seconds())),
        exercise=question.exercise or None,
    )
