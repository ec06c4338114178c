"""Open a store: see what is there, refuse what is not ours or too new, bring an older one up to date."""

from __future__ import annotations

import time
from pathlib import Path
from sqlite3 import Error as SqliteError
from typing import Final

from quizzer.errors import StoreError
from quizzer.store import compiled as sql
from quizzer.store.connection import BUSY_SECONDS, Connection
from quizzer.store.migrations import MIGRATIONS, NEWEST, Migration
from quizzer.store.place import file_of
from quizzer.store.trouble import damaged, is_busy

_TABLES: Final = {
    "sqlite": "SELECT name FROM sqlite_master WHERE type = 'table'",
    "postgresql": "SELECT table_name FROM information_schema.tables WHERE table_schema = current_schema()",
}
# Two programs that find the same empty database take turns; the number is ours and means nothing.
_TURN: Final = "SELECT pg_advisory_xact_lock(5918273)"
_PROGRAM: Final = "quizzer"
_SCRUB: Final = "scrub"
_OURS: Final = frozenset(sql.HELD)


def prepare(wire: Connection, *, create: bool, upto: int = NEWEST) -> None:
    """Make what the wire leads to a store of version `upto`. Raises StoreError and leaves alone what is not ours."""
    file = file_of(wire.url)
    if file is not None:
        try:
            _look_at(file, create=create)
        except OSError as error:
            raise StoreError(
                f"the store {file} cannot be reached ({error.strerror})", mend="allow reading its folder"
            ) from error
    facts = _facts(wire)
    if not facts and not create:
        raise _missing(wire.place)
    if _version(facts, wire.place) < upto:
        _migrate(wire, upto)
    if wire.kind == "sqlite":
        _write_ahead(wire)
        if _SCRUB in facts:
            scrub(wire)


def want_scrub(wire: Connection) -> None:
    """Note, inside the transaction that erases, that the file still holds the old bytes."""
    if wire.kind == "sqlite":
        wire.run(sql.NOTE, {"key": _SCRUB, "value": "wanted"})


def scrub(wire: Connection) -> bool:
    """Write the SQLite file anew without a byte of what was deleted. False if that was not possible just now.

    Another program may be reading, or the disk may lack the room: the rows are gone all the same, the note stays,
    and the next opening tries again. Pages are overwritten as rows are deleted, but a page that was split can
    keep a copy of a row in its gap, and the write-ahead file keeps old pages: only a rebuilt file is sure.
    """
    if wire.kind != "sqlite":
        return True
    with wire.alone():
        try:
            wire.run("VACUUM")
            blocked = wire.run("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
            if not blocked:
                wire.run(sql.UNNOTE, {"key": _SCRUB})
        except SqliteError:
            return False
    return not blocked


def _look_at(file: Path, *, create: bool) -> None:
    """Refuse a path that can hold no store, with a plainer sentence than the database has for it."""
    if file.is_dir():
        raise StoreError(f"{file} is a folder, not a store", mend="name a file with --store")
    if file.exists() and not file.is_file():
        raise StoreError(f"{file} is a device or a pipe, not a store", mend="name a file with --store")
    if not file.parent.is_dir():
        raise StoreError(
            f"the folder {file.parent} for the store is not there", mend="make the folder, or name another place"
        )
    if not create and not file.exists():
        raise _missing(str(file))


def _missing(place: str) -> StoreError:
    return StoreError(f"there is no store at {place}", mend="`quizzer study` makes one; or check --store")


def _facts(wire: Connection) -> dict[str, str]:
    """What the store says of itself; empty for an empty place. Raises StoreError for somebody else's tables."""
    tables = {name for (name,) in wire.ask(_TABLES[wire.kind])}
    if not tables:
        return {}
    facts = dict(wire.ask(sql.META_ROWS)) if "meta" in tables else {}
    if facts.get("program") != _PROGRAM:
        if len(tables & _OURS) > len(_OURS) / 2:
            raise damaged("it does not say of itself what it is", wire.place)
        raise StoreError(
            f"{wire.place} is a database, but not a quizzer store",
            mend="name another place with --store; a store needs a database of its own",
        )
    return facts


def _version(facts: dict[str, str], place: str) -> int:
    if not facts:
        return 0
    text = facts.get("version")
    if not (isinstance(text, str) and text.isascii() and text.isdecimal() and len(text) < 10):
        raise damaged(f"its version, {text!r:.40}, is no number", place)
    version = int(text)
    if version > NEWEST:
        raise StoreError(
            f"the store {place} has version {version}, and this program knows versions up to {NEWEST}",
            mend="update quizzer, or name another store with --store",
        )
    return version


def _migrate(wire: Connection, upto: int) -> None:
    for migration in MIGRATIONS:
        if migration.number <= upto:
            _step(wire, migration)


def _step(wire: Connection, migration: Migration) -> None:
    """One migration and the note that it ran, in one transaction; nothing if another program was quicker."""
    with wire.transaction("write"):
        if wire.kind == "postgresql":
            wire.run(_TURN)
        tables = {name for (name,) in wire.run(_TABLES[wire.kind]).fetchall()}
        facts = dict(wire.run(sql.META_ROWS).fetchall()) if "meta" in tables else {}
        if _version(facts, wire.place) >= migration.number:
            return
        for statement in migration.on(wire.kind):
            wire.run(statement)
        wire.run(sql.NOTE, {"key": "program", "value": _PROGRAM})
        wire.run(sql.NOTE, {"key": "version", "value": str(migration.number)})


def _write_ahead(wire: Connection) -> None:
    """Readers and a writer at once. Turning it on needs the file alone for a moment, and does not wait for it."""
    deadline = time.monotonic() + BUSY_SECONDS
    with wire.alone():
        while True:
            try:
                wire.run("PRAGMA journal_mode = WAL")
            except SqliteError as error:
                if not is_busy(error) or time.monotonic() > deadline:
                    raise
                time.sleep(0.02)
            else:
                return
