"""The tables, in columns that every database keeps alike.

Only text and whole numbers: no bare DateTime (SQLite drops the zone), no Boolean (one driver gives 1, the other
True), no native enums. An instant is UTC text of fixed width, a day is `YYYY-MM-DD`, so both sort as text; on
PostgreSQL text is compared by its bytes, as SQLite does. Every length has a CHECK, so both refuse alike.

`migrations.py` makes the tables and `compiled.py` holds the statements, both as text; tests hold them to these models,
which no session opens.
"""

from __future__ import annotations

from typing import Final

from sqlalchemy import BigInteger, CheckConstraint, Index, Table
from sqlmodel import Field, SQLModel

from quizzer.store.columns import lengths, of_trainee, within, word
from quizzer.store.paper_tables import CorrectionRow, GroupRow, MemberRow, PaperRow, ScriptRow, SittingRow


class MetaRow(SQLModel, table=True):
    """A fact about the store itself: its version, and whether bytes of an erased trainee await scrubbing."""

    __tablename__ = "meta"
    key: str = word(primary_key=True)
    value: str = word()


class TraineeRow(SQLModel, table=True):
    """One who studies, for which paper, how many minutes a day. `name_key` is the name as it is searched for.

    `no_exam` is 1 where they have said that there is none; with neither it nor a day, nothing was said yet.
    """

    __tablename__ = "trainee"
    __table_args__ = (
        *lengths("trainee", "id", "name", "name_key", "exam_day", "added_at", "blueprint"),
        *within("trainee", minutes_a_day="BETWEEN 1 AND 1440", no_exam="= 1"),
    )
    id: str = word(primary_key=True)
    name: str = word()
    name_key: str = word(unique=True)
    exam_day: str | None = word(nullable=True)
    added_at: str = word()
    blueprint: str | None = word(nullable=True)
    minutes_a_day: int | None
    no_exam: int | None


class MemoryRow(SQLModel, table=True):
    """What a trainee remembers of an entry; `answered_at` is the instant of the review that wrote it."""

    __tablename__ = "memory"
    __table_args__ = (
        *lengths("memory", "entry", "topic", "last_day", "due_day", "answered_at"),
        *within("memory", ease=">= 130", repetition=">= 1", interval_days=">= 1", owed="BETWEEN 0 AND 2"),
        CheckConstraint("due_day >= last_day", name="memory_due_after_last"),
        Index("memory_due", "trainee", "due_day", "entry"),
    )
    trainee: str = of_trainee(primary_key=True)
    entry: str = word(primary_key=True)
    topic: str = word()
    ease: int
    repetition: int
    interval_days: int
    last_day: str = word()
    due_day: str = word()
    owed: int
    answered_at: str = word()


class ReviewRow(SQLModel, table=True):
    """One answered question, whole, so that it stays readable after the bank has been edited."""

    __tablename__ = "review"
    __table_args__ = (
        *lengths("review", "id", "entry", "topic", "digest", "asked", "reply", "slip", "answered_at", "day"),
        *lengths("review", "exercise", "device"),
        *within(
            "review",
            seed=">= 0",
            was_right="IN (0, 1)",
            was_rounded="IN (0, 1)",
            was_drill="IN (0, 1)",
            confidence="IN ('certain', 'fairly sure', 'guessing')",
            quality="BETWEEN 0 AND 5",
            seconds=">= 0",
            sequence=">= 0",
            claimed="IN (0, 1)",
        ),
        Index("review_history", "trainee", "answered_at", "id"),
        Index("review_of_entry", "trainee", "entry"),
    )
    id: str = word(primary_key=True)
    trainee: str = of_trainee()
    entry: str = word()
    topic: str = word()
    seed: int = Field(sa_type=BigInteger)
    digest: str = word()
    asked: str = word()
    reply: str = word()
    was_right: int
    was_rounded: int
    slip: str | None = word(nullable=True)
    confidence: str | None = word(nullable=True)
    quality: int
    was_drill: int
    answered_at: str = word()
    day: str = word()
    seconds: int = Field(sa_type=BigInteger)
    exercise: str | None = word(nullable=True)
    device: str | None = word(nullable=True)
    sequence: int | None = Field(sa_type=BigInteger)
    claimed: int | None


class ChallengeRow(SQLModel, table=True):
    """A dispute about an entry. The instant is part of its key, so that a retry is kept once."""

    __tablename__ = "challenge"
    __table_args__ = (*lengths("challenge", "entry", "digest", "reason", "raised_at"),)
    trainee: str = of_trainee(primary_key=True)
    entry: str = word(primary_key=True)
    raised_at: str = word(primary_key=True)
    reason: str = word()
    digest: str = word()


def _table(model: type[SQLModel]) -> Table:
    table: Table = model.__table__  # type: ignore[attr-defined]
    return table


META: Final = _table(MetaRow)
TRAINEE: Final = _table(TraineeRow)
MEMORY: Final = _table(MemoryRow)
REVIEW: Final = _table(ReviewRow)
CHALLENGE: Final = _table(ChallengeRow)
GROUP: Final = _table(GroupRow)
MEMBER: Final = _table(MemberRow)
PAPER: Final = _table(PaperRow)
SITTING: Final = _table(SittingRow)
SCRIPT: Final = _table(ScriptRow)
CORRECTION: Final = _table(CorrectionRow)
# In the order in which they may be filled; emptied in the other direction.
HELD: Final = (TRAINEE, MEMORY, REVIEW, CHALLENGE, GROUP, MEMBER, PAPER, SITTING, SCRIPT, CORRECTION)
