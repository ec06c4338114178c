"""What the store says about itself and about one trainee: export, info, check."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from quizzer.errors import NotFound
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.papers import made_for
from quizzer.store.place import copies_beside, file_of
from quizzer.store.row_mapping import span_of
from quizzer.store.trouble import damaged
from quizzer.store.values import Counts, Info

_KINDS: Final = {"sqlite": "SQLite", "postgresql": "PostgreSQL"}
_SHOWN: Final = 20
_CELLS: Final = frozenset({str, int, type(None)})


def export(wire: Connection, trainee: str) -> dict[str, object]:
    """Everything held about the trainee: `trainee`, a list for each table, and `made_for`: forms with their numbers."""
    with wire.transaction("read"):
        held = {name: _dicts(wire.run(statement, {"trainee": trainee})) for name, statement in sql.ROWS_OF.items()}
        if not held["trainee"]:
            raise NotFound("no such trainee", mend="`quizzer trainee list` shows those there are")
        forms = [{"paper": paper.id, "form": form.serial} for paper, form in made_for(wire, held["trainee"][0]["name"])]
    return {**held, "trainee": held["trainee"][0], "made_for": forms}


def info(wire: Connection) -> Info:
    """Where the data is and how much of it there is."""
    with wire.transaction("read"):
        facts = dict(wire.run(sql.META_ROWS).fetchall())
        counts = counted(wire)
        first, last = span_of(wire.run(sql.SPAN).fetchone())
    file = file_of(wire.url)
    return Info(
        place=wire.place,
        kind=_KINDS[wire.kind],
        version=int(facts["version"]),
        size=None if file is None else file.stat().st_size,
        counts=counts,
        first=first,
        last=last,
        copies=copies_beside(file),
    )


def counted(wire: Connection) -> Counts:
    """How many rows of each kind, inside a transaction."""
    return Counts(*wire.run(sql.COUNTS).fetchone())


def broken_laws(wire: Connection) -> tuple[str, ...]:
    """What is wrong, a sentence each: the database's own checks first, then ours."""
    with wire.transaction("read"):
        return tuple(_broken(wire))


def _broken(wire: Connection) -> Iterator[str]:
    if wire.kind == "sqlite":
        damage = [text for (text,) in wire.run(f"PRAGMA integrity_check({_SHOWN})").fetchall()]
        yield from (f"the file is damaged: {text}" for text in damage if text != "ok")
        for table, row, parent, _ in wire.run("PRAGMA foreign_key_check").fetchmany(_SHOWN):
            yield f"row {row} of {table} belongs to a {parent} that is not there"
    for trainee, entry in wire.run(sql.UNWRITTEN).fetchmany(_SHOWN):
        yield f"the memory of {entry} (trainee {trainee}) was written by no review that is kept"


def _dicts(cursor: Any) -> list[dict[str, Any]]:
    names = [column[0] for column in cursor.description]
    rows = cursor.fetchall()
    if any(type(cell) not in _CELLS for row in rows for cell in row):
        raise damaged("a row holds what is neither text nor a number")
    return [dict(zip(names, row, strict=True)) for row in rows]
