"""Where a store is: a file, memory, or a PostgreSQL server, named by a path or a URL."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Final
from urllib.parse import parse_qsl, urlsplit

from quizzer.errors import StoreError
from quizzer.values import NamedTuple

ASIDE: Final = ".before-restore-"
STAGE: Final = ".quizzer-restore-"
Identity = tuple[int, int]
_KINDS: Final = {
    "sqlite": "sqlite",
    "sqlite+pysqlite": "sqlite",
    "postgres": "postgresql",
    "postgresql": "postgresql",
    "postgresql+psycopg": "postgresql",
}
_FORMS: Final = "give a path, or a URL such as sqlite:///study.db or postgresql://user@server/quizzer"
_MEMORY: Final = ("", ":memory:")


class StoreUrl(NamedTuple):
    """A place that was named.

    `kind` is "sqlite" or "postgresql"; `target` what its driver opens: the path of a file, "" for memory, SQLite's
    own `file:` form, or the URL of a server; `options` are those of the driver that the URL sets, as text.
    """

    kind: str
    target: str
    options: dict[str, str]


def default_url() -> str:
    """The store in the user's own data folder. The folder is made if it is not there."""
    from platformdirs import user_data_path  # here, not above: whoever names a place does not need it

    folder = user_data_path("quizzer", appauthor=False)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"the folder {folder} for the store cannot be made ({error.strerror})",
            mend="name another place with --store",
        ) from error
    return str(folder / "quizzer.db")


def read_url(text: str) -> StoreUrl:
    """The place that `text` names: a URL, or else the path of a SQLite file. Raises StoreError if it names none."""
    scheme, is_url, rest = text.partition("://")
    if not is_url:
        return StoreUrl("sqlite", str(Path(text).expanduser()), {})
    try:
        parts = urlsplit(f"//{rest}")
        host = parts.netloc
        _ = parts.port  # reading it raises for a port that is no number
    except ValueError as error:
        raise StoreError("the URL of the store cannot be read", mend=_FORMS) from error
    kind = _KINDS.get(scheme)
    if not scheme or (kind == "sqlite" and host):
        raise StoreError("the URL of the store cannot be read", mend=_FORMS)
    if kind is None:
        raise StoreError(f"a store cannot live in {scheme!r}", mend=_FORMS)
    return _file_url(rest) if kind == "sqlite" else _server_url(rest)


def _file_url(rest: str) -> StoreUrl:
    """A path as it stands, without the slash before it; with `uri=true` what the driver does not know is SQLite's."""
    path, _, query = rest.partition("?")
    options = dict(parse_qsl(query, keep_blank_values=True))
    target = path.removeprefix("/")
    if options.pop("uri", "false") == "true":
        timeout = {name: options.pop(name) for name in ("timeout",) if name in options}
        more = "&".join(f"{name}={value}" for name, value in options.items())
        return StoreUrl("sqlite", f"{target}?{more}" if more else target, timeout)
    return StoreUrl("sqlite", "" if target in _MEMORY else target, options)


def _server_url(rest: str) -> StoreUrl:
    """The URL as the driver reads it by itself."""
    return StoreUrl("postgresql", f"postgresql://{rest}", dict(parse_qsl(urlsplit(f"//{rest}").query)))


def file_of(url: StoreUrl) -> Path | None:
    """The file of a SQLite store; None for memory and for a server."""
    if url.kind != "sqlite" or not url.target or url.target.startswith("file:"):
        return None
    return Path(url.target).absolute()


def identity(url: StoreUrl) -> Identity | None:
    """Which file lies at the path of a SQLite store just now: device and number. None if there is none."""
    file = file_of(url)
    if file is None:
        return None
    try:
        found = os.stat(file)  # noqa: PTH116 - asked at every answer
    except OSError:
        return None
    return found.st_dev, found.st_ino


def shown(url: StoreUrl) -> str:
    """The place in words for a message: a path, `memory`, or a URL without its password."""
    if url.kind == "sqlite":
        return str(file_of(url) or url.target or "memory")
    without = re.sub(r"(?<=://)([^/@]*?):[^/@]*@", r"\1:***@", url.target)
    return re.sub(r"(?<=[?&]password=)[^&]*", "***", without)


def copies_beside(file: Path | None) -> tuple[Path, ...]:
    """What a restore put aside beside the store, oldest first, and what one that was killed left behind."""
    if file is None:
        return ()
    beginnings = (file.name + ASIDE, f".{file.name}{ASIDE}", STAGE)
    return tuple(sorted(path for path in file.parent.iterdir() if path.name.startswith(beginnings)))
