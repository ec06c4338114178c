"""One statement in the SQL of each database."""

from __future__ import annotations

from quizzer.values import NamedTuple


class StatementText(NamedTuple):
    """The text of a statement for each kind of database, values still to be filled in by the driver."""

    sqlite: str
    postgresql: str
