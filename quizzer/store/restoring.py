"""Put a backup in a store's place: proved first, then all of it in one transaction, the old kept aside."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path
from typing import Any

from quizzer.errors import Refused, StoreError
from quizzer.store import compiled as sql
from quizzer.store.backups import back_up, staged
from quizzer.store.connection import Connection
from quizzer.store.info import counted
from quizzer.store.opening import prepare
from quizzer.store.place import ASIDE, file_of, read_url
from quizzer.store.values import Counts, Restored

_BATCH = 1000


def restore_into(wire: Connection, path: Path, when: datetime) -> Restored:
    """Replace everything held in a sound store by the backup at `path`."""
    file = file_of(wire.url)
    _refuse_itself(path, file)
    aside = None if file is None and wire.kind == "sqlite" else _aside(file or path, when)
    poured = False
    with staged(path, file.parent if file else None) as stage:
        try:
            with stage.transaction("read"), wire.transaction("write"):
                kept = _put_aside(wire, aside)
                counts = _pour(stage, wire)
                poured = True
        except BaseException:
            # A commit whose word was lost may have happened, and then the old is nowhere but aside.
            if aside is not None and not poured:
                aside.unlink(missing_ok=True)
            raise
    return Restored(counts, kept)


def swap_in(file: Path, path: Path, when: datetime) -> Restored:
    """Put the backup at `path` in the place of a file too damaged to be used, which is kept aside whole."""
    with staged(path, file.parent) as stage:
        new = Path(f"{stage.url.target}.new")
        with closing(Connection(read_url(str(new)))) as wire:
            prepare(wire, create=True)
            with stage.transaction("read"), wire.transaction("write"):
                counts = _pour(stage, wire)
        aside = _aside(file, when)
        try:
            _move(file, aside, new.parent)
            new.replace(file)
        except OSError as error:
            raise StoreError(
                f"the damaged store cannot be put aside as {aside}: {error.strerror or error}",
                mend="free some space there, allow writing to it, and restore again",
            ) from error
    return Restored(counts, aside)


def _refuse_itself(path: Path, file: Path | None) -> None:
    if file is not None and path.exists() and file.exists() and path.samefile(file):
        raise Refused(f"{path} is the store itself, not a backup of it", mend="name a backup")


def _aside(beside: Path, when: datetime) -> Path:
    """Where the old store is kept: beside its file, or beside the backup when it is on a server."""
    return beside.with_name(beside.name + ASIDE + when.astimezone(UTC).strftime("%Y%m%d-%H%M%S-%f"))


def _put_aside(wire: Connection, aside: Path | None) -> Path | None:
    """Copy what the store holds to `aside`, and say so; None if it holds nothing or is in memory.

    The transaction that will replace it is already open, so that no other session can add an answer that
    would be neither aside nor restored; a connection of its own reads what was there.
    """
    if wire.kind == "postgresql":
        wire.run(f"LOCK TABLE {', '.join(sql.HELD)} IN EXCLUSIVE MODE")
    if aside is None or counted(wire) == Counts(0, 0, 0, 0):
        return None
    with closing(Connection(wire.url)) as reader:
        back_up(reader, aside)
    return aside


def _move(file: Path, aside: Path, stage: Path) -> None:
    """Copy a damaged file, and take away what lies beside it: its pages would be taken for the new file's."""
    part = stage / aside.name
    shutil.copy2(file, part)
    part.replace(aside)
    for end in ("-wal", "-shm"):
        companion = Path(f"{file}{end}")
        if companion.exists():
            shutil.copy2(companion, f"{aside}{end}")
            companion.unlink()


def _pour(stage: Connection, wire: Connection) -> Counts:
    """Empty every table and fill it from the stage, inside a transaction of each."""
    for empty in sql.EMPTY.values():
        wire.run(empty)
    for table, names in sql.HELD.items():
        for batch in _batches(stage.stream(sql.ROWS[table]), names):
            wire.run(sql.FILL[table], batch)
    counts = counted(wire)
    if counts != counted(stage):
        raise StoreError(f"the store {wire.place} did not take every row", mend="nothing was changed; try again")
    return counts


def _batches(rows: Iterator[tuple[Any, ...]], names: tuple[str, ...]) -> Iterator[list[dict[str, Any]]]:
    while batch := [dict(zip(names, row, strict=True)) for row in islice(rows, _BATCH)]:
        yield batch
