"""One answered question, as it is kept for good."""

from __future__ import annotations

from datetime import date, datetime
from typing import NamedTuple

from quizzer.schedule.quality import Confidence


class Review(NamedTuple):
    """One answered question, whole: it stays readable after the bank has been edited.

    `id` is made when the question is asked, so that recording it twice records it once. `entry` and `seed`
    recreate the question, `digest` tells whether the entry's text has changed since, `asked` is the question
    as it stood on the screen. `rounded` marks a right method with a wrong last digit, `slip` names the
    mistake that was recognised. A `drill` is a question asked again in the same session: it changes nothing
    in the schedule. `answered_at` carries its zone; `day` is the trainee's own date; `seconds` are whole
    seconds to answer. `exercise` is what was asked of the working where that was not the whole (`wrong-line:2`).
    """

    id: str
    trainee: str
    entry: str
    topic: str
    seed: int
    digest: str
    asked: str
    reply: str
    right: bool
    rounded: bool
    slip: str | None
    confidence: Confidence | None
    quality: int
    drill: bool
    answered_at: datetime
    day: date
    seconds: int
    exercise: str | None = None
