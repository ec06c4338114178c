"""What the store keeps about groups, papers on screen and marked answers: frozen values."""

from __future__ import annotations

from datetime import datetime

from quizzer.schedule import Memory, Review
from quizzer.values import NamedTuple

OMITTED = "-"
ABSENT = "absent"  # the origin of a script of somebody who was not there


class Newcomer(NamedTuple):
    """One who becomes a trainee together with what is done for them."""

    id: str
    name: str


class Group(NamedTuple):
    """People who are taught together: names of trainees, in their order; `added_at` is in UTC."""

    name: str
    members: tuple[str, ...]
    added_at: datetime


class Sitting(NamedTuple):
    """A form being answered on screen, as last saved.

    `answers` holds a letter or `-` and `flags` 0 or 1 for each question, `place` the question last looked at
    (from 0), `seconds` the time used of the `allowed`; `turn` counts the saves; instants are in UTC.
    """

    trainee: str
    paper: str
    form: str
    answers: str
    flags: str
    place: int
    seconds: int
    allowed: int
    turn: int
    started_at: datetime
    submitted_at: datetime | None


class Script(NamedTuple):
    """One trainee's marked answers to one form (its serial): a letter or `-` for each question.

    `origin` says where they came from: "table", "keyed" or "screen"; or `ABSENT`, with no answers.
    """

    trainee: str
    name: str
    paper: str
    form: str
    answers: str
    origin: str
    marked_at: datetime


class MarkedScript(NamedTuple):
    """A script, and what it leaves in the schedule: a review and a memory for each question that was answered.

    What was asked of a working changes nothing in the schedule, and leaves no memory.
    """

    script: Script
    answers: tuple[tuple[Review, Memory | None], ...]
