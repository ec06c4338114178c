"""What a database's own complaint means, in one sentence with a mend."""

from __future__ import annotations

import sqlite3
from typing import Final

from quizzer.errors import NotFound, QuizzerError, StoreError

_RESTORE: Final = "`quizzer store restore BACKUP` puts a backup in its place and keeps this file aside"

# By SQLite's primary result code.
_SQLITE: Final[dict[int, tuple[str, str]]] = {
    sqlite3.SQLITE_BUSY: (
        "the store {place} is in use by another program and did not come free",
        "wait for the other program or close it, then try again",
    ),
    sqlite3.SQLITE_READONLY: (
        "the store {place} may only be read, not written",
        "allow writing to the file and its folder, or name another place with --store",
    ),
    sqlite3.SQLITE_FULL: (
        "the disk is full: nothing more fits into the store {place}",
        "free some space and try again; everything recorded before is safe",
    ),
    sqlite3.SQLITE_CANTOPEN: (
        "the store {place} cannot be opened",
        "check that its folder is there and that the file may be read and written",
    ),
    sqlite3.SQLITE_CORRUPT: ("the store {place} is damaged", _RESTORE),
    # The statements are all ours and known to be right: what they name is not there, or not as it was made.
    sqlite3.SQLITE_ERROR: ("the store {place} is damaged: {why}", _RESTORE),
    sqlite3.SQLITE_NOTADB: (
        "{place} is not a store, or its first bytes are damaged",
        "check the path; " + _RESTORE,
    ),
    sqlite3.SQLITE_IOERR: (
        "the disk would not read or write the store {place}",
        "check the disk and its free space, then try again",
    ),
}
_SQLITE[sqlite3.SQLITE_LOCKED] = _SQLITE[sqlite3.SQLITE_BUSY]
_SQLITE[sqlite3.SQLITE_FORMAT] = _SQLITE[sqlite3.SQLITE_TOOBIG] = _SQLITE[sqlite3.SQLITE_CORRUPT]
_SQLITE[sqlite3.SQLITE_MISMATCH] = _SQLITE[sqlite3.SQLITE_CORRUPT]
_SQLITE[sqlite3.SQLITE_PERM] = _SQLITE[sqlite3.SQLITE_CANTOPEN]

# By the class of PostgreSQL's SQLSTATE, its first two characters; "" when the server was not reached at all.
_POSTGRESQL: Final[dict[str, tuple[str, str]]] = {
    "": (
        "the server of the store {place} cannot be reached ({why})",
        "check that the server runs and that the address is right",
    ),
    "28": ("the server of the store {place} refuses the user or the password", "check both in the URL"),
    "3D": ("the database of the store {place} is not there", "make it with `createdb`, or check the URL"),
    "25": ("the store {place} may only be read, not written", "point the URL at the primary server"),
    "42": ("the store {place} may not be used so", "check the rights of the user in the URL"),
    "40": ("the store {place} is in use by another program", "try again"),
    "53": ("the server of the store {place} has no room left", "free some space on the server and try again"),
    "55": (
        "the store {place} is in use by another program and did not come free",
        "wait for the other program or close it, then try again",
    ),
}
_POSTGRESQL["08"] = _POSTGRESQL["57"] = _POSTGRESQL[""]
_POSTGRESQL["XX"] = ("the store {place} is damaged", "ask the keeper of the server for a backup")

_UNKNOWN: Final = (
    "the store {place} could not do this: {why}",
    "nothing was changed; `quizzer store check` looks for damage",
)
_DAMAGE: Final = frozenset(
    {
        sqlite3.SQLITE_CORRUPT,
        sqlite3.SQLITE_NOTADB,
        sqlite3.SQLITE_ERROR,
        sqlite3.SQLITE_FORMAT,
        sqlite3.SQLITE_TOOBIG,
        sqlite3.SQLITE_MISMATCH,
    }
)
# Said by Python's module itself, without a code: text in the file that is no UTF-8.
_NOT_TEXT: Final = "Could not decode to UTF-8"
# A disk that would not take what was written to it.
_UNWRITTEN: Final = frozenset({sqlite3.SQLITE_IOERR_WRITE, sqlite3.SQLITE_IOERR_FSYNC, sqlite3.SQLITE_IOERR_TRUNCATE})
_NO_SUCH_TRAINEE: Final = frozenset({"23503", sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY})


class Damage(Exception):
    """What the store holds makes no sense: the reason behind the StoreError that tells it."""


def damaged(why: str, place: str = "") -> StoreError:
    """The refusal of a store whose content makes no sense."""
    error = StoreError(f"the store{f' {place}' if place else ''} is damaged: {why}", mend=_RESTORE)
    error.__cause__ = Damage(why)
    return error


def told(error: Exception, place: str) -> QuizzerError:
    """The refusal that stands for a driver's error, or for text of the file that cannot be decoded."""
    if _code(error) in _NO_SUCH_TRAINEE:
        return NotFound("no such trainee", mend="`quizzer trainee list` shows those there are")
    message, mend = _meaning(error) or _UNKNOWN
    return StoreError(message.format(place=place, why=_first_line(error)), mend=mend)


def is_damage(error: BaseException) -> bool:
    """Whether this StoreError says that the file itself is broken, so that only a backup can help."""
    cause = error.__cause__
    if isinstance(cause, StoreError):
        return is_damage(cause)
    if isinstance(cause, Damage | UnicodeDecodeError):
        return True
    return isinstance(cause, sqlite3.Error) and (_primary(cause) in _DAMAGE or _NOT_TEXT in str(cause))


def is_full(error: BaseException) -> bool:
    """Whether SQLite said that the disk is full, or would not take what was written."""
    return isinstance(error, sqlite3.Error) and (_primary(error) == sqlite3.SQLITE_FULL or _code(error) in _UNWRITTEN)


def is_busy(error: Exception) -> bool:
    """Whether SQLite said that somebody else holds the file."""
    return _primary(error) == sqlite3.SQLITE_BUSY


def _primary(error: Exception) -> int | None:
    """SQLite's primary result code."""
    code = _code(error)
    return code & 0xFF if isinstance(code, int) else None


def _code(error: Exception) -> int | str | None:
    """SQLite's extended result code, or PostgreSQL's SQLSTATE."""
    if isinstance(error, sqlite3.Error):
        code: int | None = getattr(error, "sqlite_errorcode", None)
        return code
    state: str | None = getattr(error, "sqlstate", None)
    return state


def _meaning(error: Exception) -> tuple[str, str] | None:
    code = _code(error)
    if isinstance(code, int):
        return _SQLITE.get(code & 0xFF)
    if isinstance(error, UnicodeDecodeError) or _NOT_TEXT in str(error):
        return _SQLITE[sqlite3.SQLITE_CORRUPT]
    if isinstance(error, sqlite3.Error):
        return _SQLITE[sqlite3.SQLITE_NOTADB] if "not a database" in str(error) else None
    return _POSTGRESQL.get((code or "")[:2])


def _first_line(error: Exception) -> str:
    return (str(error).splitlines() or [type(error).__name__])[0]
