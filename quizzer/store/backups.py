"""A consistent copy of a store in use, and a copy proved before it is trusted."""

from __future__ import annotations

import errno
import os
import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path

from quizzer.errors import QuizzerError, Refused, StoreError
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.info import broken_laws, counted
from quizzer.store.json_backup import HEAD, read_lines, write_lines
from quizzer.store.opening import prepare
from quizzer.store.place import read_url
from quizzer.store.staging import stage_in
from quizzer.store.trouble import Damage, is_full, told
from quizzer.store.values import Counts

_SQLITE_HEAD = b"SQLite format 3\0"


def back_up(wire: Connection, path: Path) -> Counts:
    """Write a copy to `path`, prove it, and only then give it its name."""
    if os.path.lexists(path):
        raise Refused(f"there is already a file at {path}", mend="choose another name for the backup")
    try:
        with stage_in(path.parent) as stage:
            part = _part(stage / path.name)
            _write(wire, part)
            counts = _proved(wire, part)
            _to_disk(part)
            part.replace(path)
    except OSError as error:
        what = f"the backup cannot be written to {path}: {error.strerror or error}"
        raise StoreError(what, mend="choose a place with room that may be written") from error
    return counts


@contextmanager
def staged(path: Path, folder: Path | None) -> Iterator[Connection]:
    """A proved copy of the backup at `path`, up to date, in a temporary place in `folder`.

    Raises StoreError if the backup is missing, damaged, foreign or from a newer version, or if there is no place.
    """
    with ExitStack() as held:
        try:
            stage = held.enter_context(stage_in(folder)) / "stage.db"
        except OSError as error:
            raise StoreError(
                f"the backup {path} cannot be unpacked: {error.strerror or error}",
                mend="allow writing to the folder of the store; the store itself was not touched",
            ) from error
        wire = Connection(read_url(str(stage)), place="it")
        try:
            _load(path, stage, wire)
            yield wire
        finally:
            wire.close()


def _part(path: Path) -> Path:
    """The path, of a new file that only this user may read."""
    os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    return path


def _write(wire: Connection, part: Path) -> None:
    if wire.kind == "sqlite":
        with wire.alone() as connection:
            _copy(connection, part)
    else:
        with part.open("wb") as out:
            write_lines(wire, out)


def _copy(source: sqlite3.Connection, target: Path) -> None:
    """The database as of one moment, in one file: without write-ahead, which would want a second one.

    Raises OSError when the disk of the target has no room: the source is only read.
    """
    with closing(sqlite3.connect(target, isolation_level=None)) as copy:
        try:
            source.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
        except sqlite3.Error as error:
            if is_full(error):
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(target)) from error
            raise


def _proved(wire: Connection, part: Path) -> Counts:
    """What the copy holds, read back from it. Raises StoreError if it is not sound: then the store is not."""
    try:
        if wire.kind != "sqlite":
            with staged(part, part.parent) as copy:
                return _sound(copy)
        with closing(Connection(read_url(str(part)), place="it")) as copy:
            return _sound(copy)
    except StoreError as error:
        raise StoreError(
            f"no backup was made, because the store {wire.place} is not sound: {error.message}",
            mend="`quizzer store check` says more; an older backup can be restored",
        ) from error


def _sound(wire: Connection) -> Counts:
    """What a copy holds. Raises StoreError if a law is broken in it, or a column is not there."""
    for wrong in broken_laws(wire):
        raise StoreError(wrong, mend="try another backup") from Damage(wrong)
    with wire.transaction("read"):
        for rows in sql.ROWS.values():
            wire.run(rows).fetchone()
        return counted(wire)


def _to_disk(part: Path) -> None:
    with part.open("rb+") as file:
        os.fsync(file.fileno())


def _load(path: Path, stage: Path, wire: Connection) -> None:
    """Fill the stage from the backup, bring it up to date, and look for anything wrong with it."""
    hint = "try another backup; the store itself was not touched"
    try:
        _read(path, stage, wire)
        _sound(wire)
    except OSError as error:
        if error.errno == errno.ENOSPC:
            raise _no_room(stage) from None
        raise _unusable(path, error.strerror or str(error), hint) from None
    except (sqlite3.Error, UnicodeDecodeError) as error:
        raise _unusable(path, told(error, "it").message, hint) from None
    except QuizzerError as error:
        if error.__cause__ and is_full(error.__cause__):
            raise _no_room(stage) from None
        raise _unusable(path, error.message, hint) from None


def _read(path: Path, stage: Path, wire: Connection) -> None:
    with path.open("rb") as file:
        head = file.read(len(_SQLITE_HEAD))
    if head == _SQLITE_HEAD:
        with closing(sqlite3.connect(path.absolute().as_uri() + "?mode=ro", uri=True)) as source:
            _copy(source, stage)
        prepare(wire, create=False)
    elif head.startswith(HEAD):
        read_lines(path, wire)
    else:
        raise StoreError("it is not a backup of a quizzer store", mend="")


def _no_room(stage: Path) -> StoreError:
    return StoreError(
        f"the disk is full: the backup cannot be unpacked in {stage.parent.parent}",
        mend="free some space there and try again; the store itself was not touched",
    )


def _unusable(path: Path, why: str, mend: str) -> StoreError:
    return StoreError(f"the backup {path} cannot be used: {why}", mend=mend)
