"""The tables of groups, papers, sittings and scripts, beside those of study in `tables.py`."""

from __future__ import annotations

from sqlalchemy import BigInteger
from sqlmodel import Field, SQLModel

from quizzer.store.columns import lengths, of_trainee, owned_by, within, word


class GroupRow(SQLModel, table=True):
    """People who are taught together. `name_key` is the name as it is searched for."""

    __tablename__ = "trainee_group"
    __table_args__ = (*lengths("trainee_group", "name_key", "name", "added_at"),)
    name_key: str = word(primary_key=True)
    name: str = word()
    added_at: str = word()


class MemberRow(SQLModel, table=True):
    """That a trainee belongs to a group."""

    __tablename__ = "group_member"
    group_key: str = owned_by("trainee_group.name_key", primary_key=True)
    trainee: str = of_trainee(primary_key=True)


class PaperRow(SQLModel, table=True):
    """A paper as its record says it; `kept` counts up, so that the last ones are known."""

    __tablename__ = "paper"
    __table_args__ = (*lengths("paper", "id", "record"), *within("paper", kept=">= 1"))
    id: str = word(primary_key=True)
    record: str = word()
    kept: int


class SittingRow(SQLModel, table=True):
    """A form being answered on screen: a letter or `-` and a flag `0` or `1` for each question, and the time used."""

    __tablename__ = "sitting"
    __table_args__ = (
        *lengths("sitting", "form", "answers", "flags", "started_at", "submitted_at"),
        *within("sitting", place=">= 0", seconds=">= 0", allowed=">= 1", turn=">= 0"),
    )
    trainee: str = of_trainee(primary_key=True)
    paper: str = owned_by("paper.id", primary_key=True)
    form: str = word(primary_key=True)
    answers: str = word()
    flags: str = word()
    place: int
    seconds: int = Field(sa_type=BigInteger)
    allowed: int = Field(sa_type=BigInteger)
    turn: int
    started_at: str = word()
    submitted_at: str | None = word(nullable=True)


class ScriptRow(SQLModel, table=True):
    """One trainee's answers to one form, marked: a letter or `-` for each question."""

    __tablename__ = "script"
    __table_args__ = (*lengths("script", "form", "answers", "origin", "marked_at"),)
    trainee: str = of_trainee(primary_key=True)
    paper: str = owned_by("paper.id", primary_key=True)
    form: str = word(primary_key=True)
    answers: str = word()
    origin: str = word()
    marked_at: str = word()


class CorrectionRow(SQLModel, table=True):
    """What was put right afterwards: of a trainee's script, of a question of a paper, or that two people are one.

    `number` counts up; `was` and `becomes` hold what it was before and after; `undoes` names the one it takes back.
    """

    __tablename__ = "correction"
    __table_args__ = (
        *lengths("correction", "id", "kind", "about", "was", "becomes", "who", "reason", "made_at", "undoes"),
        *within("correction", number=">= 1"),
    )
    id: str = word(primary_key=True)
    number: int
    paper: str | None = owned_by("paper.id", nullable=True)
    trainee: str | None = of_trainee(nullable=True)
    kind: str = word()
    about: str = word()
    was: str = word()
    becomes: str = word()
    who: str = word()
    reason: str = word()
    made_at: str = word()
    undoes: str | None = word(nullable=True)
