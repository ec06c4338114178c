"""What the store hands out: frozen values. A row of a table never crosses the door."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from quizzer.values import NamedTuple


class Trainee(NamedTuple):
    """One who studies. `exam` is the day of the exam, if one is known; `added_at` is in UTC.

    With none, `no_exam` says that they told so: else nothing was said yet.
    `blueprint` is the paper they study for and `minutes` how long a day, where they have said so.
    """

    id: str
    name: str
    exam: date | None
    added_at: datetime
    blueprint: str | None = None
    minutes: int | None = None
    no_exam: bool = False


class Challenge(NamedTuple):
    """A trainee's "I dispute this": which entry, which text of it (`digest`), why, and when (UTC)."""

    entry: str
    trainee: str
    reason: str
    digest: str
    raised_at: datetime


class Answered(NamedTuple):
    """What reports need of an answer; a tuple, because there may be a million of them.

    `right` is 1 or 0, `day` the trainee's own as `YYYY-MM-DD`; there may be no mistake and no confidence.
    """

    entry: str
    topic: str
    right: int
    day: str
    reply: str
    slip: str | None
    confidence: str | None


class Tally(NamedTuple):
    """Right and wrong answers in one topic; drills are not counted."""

    topic: str
    right: int
    wrong: int


class Counts(NamedTuple):
    """How many rows of each kind are held."""

    trainees: int
    memories: int
    reviews: int
    challenges: int
    groups: int = 0
    members: int = 0
    papers: int = 0
    sittings: int = 0
    scripts: int = 0
    corrections: int = 0


class Info(NamedTuple):
    """Where the data is and how much of it there is.

    `place` is a path or a URL without its password, `kind` the database ("SQLite" or "PostgreSQL"), `size` the
    bytes on disk (None where they cannot be told), `first` and `last` the instants of the first and last
    review, `copies` what a restore put aside, or one that was killed left behind, beside the store.
    """

    place: str
    kind: str
    version: int
    size: int | None
    counts: Counts
    first: datetime | None
    last: datetime | None
    copies: tuple[Path, ...]


class Erased(NamedTuple):
    """What was erased.

    `scrubbed` is False when another program still had the file open: the trainee is gone from every table, and
    the old bytes leave the file the next time the store is opened alone. `copies` are files beside the store
    that were put aside by a restore and may still hold the trainee; other backups are not known here.
    """

    memories: int
    reviews: int
    challenges: int
    scrubbed: bool
    copies: tuple[Path, ...]
    scripts: int = 0
    sittings: int = 0


class Restored(NamedTuple):
    """What is in the store now, and the file that keeps what was there before (None if that was nothing)."""

    counts: Counts
    aside: Path | None
