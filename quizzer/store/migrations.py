"""How the tables came to be, step by step. A step that was ever released is never edited; a new one is added.

Each step runs in a transaction of its own together with the note that it ran, so a store is at one version or
the next and never between. The text of the steps is SQLite's; PostgreSQL gets the same with text compared by bytes.
"""

from __future__ import annotations

import re
from typing import Final

from quizzer.store.migrated_corrections import CORRECTIONS
from quizzer.store.migrated_papers import PAPERS
from quizzer.store.migrated_study import EXERCISES, FIRST, NO_EXAM, PHONES, STUDIES_FOR
from quizzer.values import NamedTuple


class Migration(NamedTuple):
    """The step to version `number`."""

    number: int
    statements: tuple[str, ...]

    def on(self, dialect: str) -> tuple[str, ...]:
        """The statements as `dialect` wants them."""
        if dialect == "sqlite":
            return self.statements
        return tuple(re.sub(r"\bTEXT\b", 'TEXT COLLATE "C"', statement) for statement in self.statements)


MIGRATIONS: Final = (
    Migration(1, FIRST),
    Migration(2, PAPERS),
    Migration(3, STUDIES_FOR),
    Migration(4, EXERCISES),
    Migration(5, NO_EXAM),
    Migration(6, PHONES),
    Migration(7, CORRECTIONS),
)
NEWEST: Final = MIGRATIONS[-1].number
