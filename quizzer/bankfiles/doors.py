"""The two doors to the files of people: one is read no further than its limit, one is written whole or not at all."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from quizzer.errors import Refused

_USUAL = 65_536  # bytes that hold most files
_ANOTHER = "name another file"


class TooLarge(Exception):
    """The file has more bytes than one of its kind."""


def read_at_most(path: Path, largest: int) -> bytes:
    """The bytes of a file, a pipe or a device. Raises OSError, or TooLarge before more than that is in memory."""
    with path.open("rb") as file:
        # Room for the largest is made only where it is needed: making it takes longer than reading most files.
        content = file.read(min(_USUAL, largest + 1))
        if len(content) == _USUAL:
            content += file.read(largest + 1 - _USUAL)
    if len(content) > largest:
        raise TooLarge
    return content


def save_whole(
    path: Path, content: bytes, *, replacing: bool = True, private: bool = False, mend: str = _ANOTHER
) -> None:
    """Write a file: all of it or nothing, also when the power goes; a link keeps leading to it.

    Only a regular file is written over, and only with `replacing`. What is `private` nobody else may read. Raises
    Refused.
    """
    target = Path(os.path.realpath(path))
    if not replacing and os.path.lexists(path):
        raise Refused(f"{str(path)!r} is there already", mend=mend)
    try:
        _refuse_special(path, target)
        import secrets  # what only reads has no need of it

        aside = target.with_name(f".quizzer-{secrets.token_hex(6)}")
        try:
            _write(aside, content, 0o600 if private else 0o666)
            if target.exists() and not private:
                aside.chmod(target.stat().st_mode & 0o777)
            aside.replace(target)
        finally:
            with suppress(FileNotFoundError):
                aside.unlink()
    except OSError as error:
        raise Refused(f"{str(path)!r} cannot be written ({error.strerror})", mend=mend) from None


def _refuse_special(path: Path, target: Path) -> None:
    if target.is_dir():
        raise Refused(f"{str(path)!r} is a folder", mend="name a file in it")
    if target.exists() and not target.is_file():
        raise Refused(f"{str(path)!r} is a device or a pipe, not a file", mend=_ANOTHER)


def _write(aside: Path, content: bytes, mode: int) -> None:
    """A new file with those of the permissions that the system gives new files."""
    handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), mode)
    with os.fdopen(handle, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
