"""Where a store is: a file, memory, or a PostgreSQL server, named by a path or a URL."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Final

from platformdirs import user_data_path
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError

from quizzer.errors import StoreError

ASIDE: Final = ".before-restore-"
STAGE: Final = ".quizzer-restore-"
Identity = tuple[int, int]
_DRIVERS: Final = {
    "sqlite": "sqlite",
    "sqlite+pysqlite": "sqlite",
    "postgres": "postgresql+psycopg",
    "postgresql": "postgresql+psycopg",
    "postgresql+psycopg": "postgresql+psycopg",
}


def default_url() -> str:
    """The store in the user's own data folder. The folder is made if it is not there."""
    folder = user_data_path("quizzer", appauthor=False)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"the folder {folder} for the store cannot be made ({error.strerror})",
            mend="name another place with --store",
        ) from error
    return str(folder / "quizzer.db")


def read_url(text: str) -> URL:
    """The place that `text` names: a URL, or else the path of a SQLite file. Raises StoreError if it names none."""
    if "://" not in text:
        return URL.create("sqlite", database=str(Path(text).expanduser()))
    try:
        url = make_url(text)
    except (ArgumentError, ValueError) as error:
        raise StoreError("the URL of the store cannot be read", mend=_FORMS) from error
    if url.drivername not in _DRIVERS:
        raise StoreError(f"a store cannot live in {url.drivername!r}", mend=_FORMS)
    return url.set(drivername=_DRIVERS[url.drivername])


_FORMS: Final = "give a path, or a URL such as sqlite:///study.db or postgresql://user@server/quizzer"


def file_of(url: URL) -> Path | None:
    """The file of a SQLite store; None for memory and for a server."""
    name = url.database
    if url.get_backend_name() != "sqlite" or not name or name == ":memory:" or name.startswith("file:"):
        return None
    return Path(name).absolute()


def identity(url: URL) -> Identity | None:
    """Which file lies at the path of a SQLite store just now: device and number. None if there is none."""
    file = file_of(url)
    if file is None:
        return None
    try:
        found = os.stat(file)  # noqa: PTH116 - asked at every answer
    except OSError:
        return None
    return found.st_dev, found.st_ino


def shown(url: URL) -> str:
    """The place in words for a message: a path, `memory`, or a URL without its password."""
    if url.get_backend_name() != "sqlite":
        return url.render_as_string(hide_password=True)
    return str(file_of(url) or url.database or "memory")


def copies_beside(file: Path | None) -> tuple[Path, ...]:
    """What a restore put aside beside the store, oldest first, and what one that was killed left behind."""
    if file is None:
        return ()
    beginnings = (file.name + ASIDE, f".{file.name}{ASIDE}", STAGE)
    return tuple(sorted(path for path in file.parent.iterdir() if path.name.startswith(beginnings)))
