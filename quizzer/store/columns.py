"""What the columns of the models are made of: text, whose it is, how long it may be."""

from __future__ import annotations

from typing import Any, Final

from sqlalchemy import CheckConstraint, ForeignKey, Text
from sqlmodel import Field

from quizzer.store.lengths import LENGTHS

_WORD: Final = Text().with_variant(Text(collation="C"), "postgresql")


def lengths(table: str, *columns: str) -> list[CheckConstraint]:
    """A length CHECK for each column."""
    return [
        CheckConstraint(f"length({c}) BETWEEN {LENGTHS[c][0]} AND {LENGTHS[c][1]}", name=f"{table}_{c}")
        for c in columns
    ]


def within(table: str, **bounds: str) -> list[CheckConstraint]:
    """A named CHECK for each rule about a column's value."""
    return [CheckConstraint(f"{column} {rule}", name=f"{table}_{column}") for column, rule in bounds.items()]


def word(**more: Any) -> Any:
    """A column of text, compared by its bytes."""
    return Field(sa_type=_WORD, **more)


def owned_by(owner: str, **more: Any) -> Any:
    """A column that names a row of another table, `table.column`."""
    return Field(sa_type=_WORD, sa_column_args=(ForeignKey(owner),), **more)


def of_trainee(**more: Any) -> Any:
    """A column that says whose the row is."""
    return owned_by("trainee.id", **more)
