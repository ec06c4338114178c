"""Folders for what is half made: each held by a lock while it is in use, and swept by the next start if it is not.

The lock is SQLite's own, on a file in the folder: it works alike on every system, and ends with its process.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from tempfile import gettempdir, mkdtemp
from typing import Final

from quizzer.store.place import STAGE

_LOCK: Final = "lock"
_TRIES: Final = 20


@contextmanager
def stage_in(folder: Path | None) -> Iterator[Path]:
    """A new folder in `folder` (or where the system keeps such things), gone afterwards.

    What killed programs left there is swept first. Raises OSError if no folder can be made.
    """
    parent = folder or Path(gettempdir())
    sweep(parent)
    stage, lock = _held(parent)
    try:
        yield stage
    finally:
        lock.close()
        shutil.rmtree(stage, ignore_errors=True)


def sweep(parent: Path) -> None:
    """Remove the stages of programs that are no more; one in use, or of another user, is left alone."""
    for stage in parent.glob(f"{STAGE}*"):
        if stage.is_symlink() or not stage.is_dir():
            continue
        try:
            lock = _lock(stage)
        except sqlite3.Error:
            continue
        with closing(lock):
            shutil.rmtree(stage, ignore_errors=True)


def _held(parent: Path) -> tuple[Path, sqlite3.Connection]:
    """A new stage and its lock. Another program may sweep a stage between its making and its locking: try again."""
    for _ in range(_TRIES):
        stage = Path(mkdtemp(prefix=STAGE, dir=parent))
        try:
            lock = _lock(stage)
        except sqlite3.Error:
            shutil.rmtree(stage, ignore_errors=True)
            continue
        if (stage / _LOCK).exists():
            return stage, lock
        lock.close()
    raise OSError(f"no folder can be held in {parent}")


def _lock(stage: Path) -> sqlite3.Connection:
    """The lock of a stage, which ends when it is closed. Raises sqlite3.Error if another program has it."""
    lock = sqlite3.connect(stage / _LOCK, timeout=0, isolation_level=None)
    try:
        lock.execute("BEGIN EXCLUSIVE")
    except sqlite3.Error:
        lock.close()
        raise
    return lock
