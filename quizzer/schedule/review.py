"""One answered question, as it is kept for good."""

from __future__ import annotations

from datetime import date, datetime
from typing import Final

from quizzer.schedule.quality import Confidence
from quizzer.values import NamedTuple

PLAYED: Final = "diagnose"
COMMISSIONED: Final = "commission"


class Review(NamedTuple):
    """One answered question, whole: it stays readable after the bank has been edited.

    `id` is made when the question is asked, so that recording it twice records it once. `entry` and `seed`
    recreate the question, `digest` tells whether the entry's text has changed since, `asked` is the question
    as it stood on the screen. `rounded` marks a right method with a wrong last digit, `slip` names the
    mistake that was recognised. A `drill` is a question asked again in the same session: it changes nothing
    in the schedule. `answered_at` carries its zone; `day` is the trainee's own date; `seconds` are whole
    seconds to answer. `exercise` is what was asked of the working where that was not the whole (`wrong-line:2`);
    of a diagnosis played for marks it is `PLAYED`, its level, and the set it stood in (`diagnose:2:1f3a`): then
    `seed` is the exercise's own, and `reply` its mark with the reason; of a commissioning `COMMISSIONED`, its level and
    its size. Of an answer from a phone, `device` names the
    browser, `sequence` is its place among all that this browser sent, and `claimed` whether the phone had marked it
    right.
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
    device: str | None = None
    sequence: int | None = None
    claimed: bool | None = None

    @property
    def played(self) -> bool:
        """Whether it is a diagnosis or a commissioning that was played for marks."""
        return self.diagnosed or self.commissioned

    @property
    def diagnosed(self) -> bool:
        """Whether it is a diagnosis that was played for marks."""
        return (self.exercise or "").startswith(f"{PLAYED}:")

    @property
    def commissioned(self) -> bool:
        """Whether it is a commissioning that was played for marks."""
        return (self.exercise or "").startswith(f"{COMMISSIONED}:")
