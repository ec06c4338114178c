"""The tables, in columns that every database keeps alike.

Only text and whole numbers: no bare DateTime (SQLite drops the zone), no Boolean (one driver gives 1, the other
True), no native enums. An instant is UTC text of fixed width, a day is `YYYY-MM-DD`, so both sort as text; on
PostgreSQL text is compared by its bytes, as SQLite does. Every length has a CHECK, so both refuse alike.

`migrations.py` makes the tables and `compiled.py` holds the statements, both as text; tests hold them to these models,
which no session opens.
"""

from __future__ import annotations

from typing import Any, Final

from sqlalchemy import BigInteger, CheckConstraint, ForeignKey, Index, Table, Text
from sqlmodel import Field, SQLModel

from quizzer.store.lengths import LENGTHS

_WORD: Final = Text().with_variant(Text(collation="C"), "postgresql")


def _lengths(table: str, *columns: str) -> list[CheckConstraint]:
    """A length CHECK for each column."""
    return [
        CheckConstraint(f"length({c}) BETWEEN {LENGTHS[c][0]} AND {LENGTHS[c][1]}", name=f"{table}_{c}")
        for c in columns
    ]


def _within(table: str, **bounds: str) -> list[CheckConstraint]:
    """A named CHECK for each rule about a column's value."""
    return [CheckConstraint(f"{column} {rule}", name=f"{table}_{column}") for column, rule in bounds.items()]


def _word(**more: Any) -> Any:
    return Field(sa_type=_WORD, **more)


def _of(owner: str, **more: Any) -> Any:
    return Field(sa_type=_WORD, sa_column_args=(ForeignKey(owner),), **more)


def _trainee(**more: Any) -> Any:
    return _of("trainee.id", **more)


class MetaRow(SQLModel, table=True):
    """A fact about the store itself: its version, and whether bytes of an erased trainee await scrubbing."""

    __tablename__ = "meta"
    key: str = _word(primary_key=True)
    value: str = _word()


class TraineeRow(SQLModel, table=True):
    """One who studies, for which paper, how many minutes a day. `name_key` is the name as it is searched for.

    `no_exam` is 1 where they have said that there is none; with neither it nor a day, nothing was said yet.
    """

    __tablename__ = "trainee"
    __table_args__ = (
        *_lengths("trainee", "id", "name", "name_key", "exam_day", "added_at", "blueprint"),
        *_within("trainee", minutes_a_day="BETWEEN 1 AND 1440", no_exam="= 1"),
    )
    id: str = _word(primary_key=True)
    name: str = _word()
    name_key: str = _word(unique=True)
    exam_day: str | None = _word(nullable=True)
    added_at: str = _word()
    blueprint: str | None = _word(nullable=True)
    minutes_a_day: int | None
    no_exam: int | None


class MemoryRow(SQLModel, table=True):
    """What a trainee remembers of an entry; `answered_at` is the instant of the review that wrote it."""

    __tablename__ = "memory"
    __table_args__ = (
        *_lengths("memory", "entry", "topic", "last_day", "due_day", "answered_at"),
        *_within("memory", ease=">= 130", repetition=">= 1", interval_days=">= 1", owed="BETWEEN 0 AND 2"),
        CheckConstraint("due_day >= last_day", name="memory_due_after_last"),
        Index("memory_due", "trainee", "due_day", "entry"),
    )
    trainee: str = _trainee(primary_key=True)
    entry: str = _word(primary_key=True)
    topic: str = _word()
    ease: int
    repetition: int
    interval_days: int
    last_day: str = _word()
    due_day: str = _word()
    owed: int
    answered_at: str = _word()


class ReviewRow(SQLModel, table=True):
    """One answered question, whole, so that it stays readable after the bank has been edited."""

    __tablename__ = "review"
    __table_args__ = (
        *_lengths(
            "review", "id", "entry", "topic", "digest", "asked", "reply", "slip", "answered_at", "day", "exercise"
        ),
        *_within(
            "review",
            seed=">= 0",
            was_right="IN (0, 1)",
            was_rounded="IN (0, 1)",
            was_drill="IN (0, 1)",
            confidence="IN ('certain', 'fairly sure', 'guessing')",
            quality="BETWEEN 0 AND 5",
            seconds=">= 0",
        ),
        Index("review_history", "trainee", "answered_at", "id"),
    )
    id: str = _word(primary_key=True)
    trainee: str = _trainee()
    entry: str = _word()
    topic: str = _word()
    seed: int = Field(sa_type=BigInteger)
    digest: str = _word()
    asked: str = _word()
    reply: str = _word()
    was_right: int
    was_rounded: int
    slip: str | None = _word(nullable=True)
    confidence: str | None = _word(nullable=True)
    quality: int
    was_drill: int
    answered_at: str = _word()
    day: str = _word()
    seconds: int = Field(sa_type=BigInteger)
    exercise: str | None = _word(nullable=True)


class ChallengeRow(SQLModel, table=True):
    """A dispute about an entry. The instant is part of its key, so that a retry is kept once."""

    __tablename__ = "challenge"
    __table_args__ = (*_lengths("challenge", "entry", "digest", "reason", "raised_at"),)
    trainee: str = _trainee(primary_key=True)
    entry: str = _word(primary_key=True)
    raised_at: str = _word(primary_key=True)
    reason: str = _word()
    digest: str = _word()


class GroupRow(SQLModel, table=True):
    """People who are taught together. `name_key` is the name as it is searched for."""

    __tablename__ = "trainee_group"
    __table_args__ = (*_lengths("trainee_group", "name_key", "name", "added_at"),)
    name_key: str = _word(primary_key=True)
    name: str = _word()
    added_at: str = _word()


class MemberRow(SQLModel, table=True):
    """That a trainee belongs to a group."""

    __tablename__ = "group_member"
    group_key: str = _of("trainee_group.name_key", primary_key=True)
    trainee: str = _trainee(primary_key=True)


class PaperRow(SQLModel, table=True):
    """A paper as its record says it; `kept` counts up, so that the last ones are known."""

    __tablename__ = "paper"
    __table_args__ = (*_lengths("paper", "id", "record"), *_within("paper", kept=">= 1"))
    id: str = _word(primary_key=True)
    record: str = _word()
    kept: int


class SittingRow(SQLModel, table=True):
    """A form being answered on screen: a letter or `-` and a flag `0` or `1` for each question, and the time used."""

    __tablename__ = "sitting"
    __table_args__ = (
        *_lengths("sitting", "form", "answers", "flags", "started_at", "submitted_at"),
        *_within("sitting", place=">= 0", seconds=">= 0", allowed=">= 1", turn=">= 0"),
    )
    trainee: str = _trainee(primary_key=True)
    paper: str = _of("paper.id", primary_key=True)
    form: str = _word(primary_key=True)
    answers: str = _word()
    flags: str = _word()
    place: int
    seconds: int = Field(sa_type=BigInteger)
    allowed: int = Field(sa_type=BigInteger)
    turn: int
    started_at: str = _word()
    submitted_at: str | None = _word(nullable=True)


class ScriptRow(SQLModel, table=True):
    """One trainee's answers to one form, marked: a letter or `-` for each question."""

    __tablename__ = "script"
    __table_args__ = (*_lengths("script", "form", "answers", "origin", "marked_at"),)
    trainee: str = _trainee(primary_key=True)
    paper: str = _of("paper.id", primary_key=True)
    form: str = _word(primary_key=True)
    answers: str = _word()
    origin: str = _word()
    marked_at: str = _word()


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
# In the order in which they may be filled; emptied in the other direction.
HELD: Final = (TRAINEE, MEMORY, REVIEW, CHALLENGE, GROUP, MEMBER, PAPER, SITTING, SCRIPT)
