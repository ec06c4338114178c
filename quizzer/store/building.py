"""What statements are built of: one that the two databases build differently, and the trainee that it is about."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from sqlalchemy import BindParameter, Executable, Table, bindparam
from sqlalchemy.dialects.postgresql import insert as postgresql_insert
from sqlalchemy.dialects.sqlite import insert as sqlite_insert


@dataclass(frozen=True, slots=True, eq=False)
class Both:
    """One statement that the two databases build differently, from the insert of each."""

    build: Callable[[Any], Executable]
    table: Table

    def of(self, kind: str) -> Executable:
        """The statement for a database, "sqlite" or "postgresql"."""
        return self.build((sqlite_insert if kind == "sqlite" else postgresql_insert)(self.table))


def added(table: Table) -> Both:
    """Add a row, unless it is there."""
    return Both(lambda new: new.on_conflict_do_nothing(), table)


TRAINEE_IS: Final[BindParameter[str]] = bindparam("trainee")
