"""One connection to one database, and one transaction on it at a time.

Statements go to the driver as text that was compiled ahead (`compiled.py`): opening SQLAlchemy costs a second, and
its own way of running them as much again as SQLite needs for the work. Transactions are begun and ended by
statements of ours: the drivers' own habits differ, and SQLite's would leave a failed migration half made.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from threading import Lock
from typing import Any, Final

from quizzer.errors import StoreError
from quizzer.store.place import Identity, StoreUrl, identity, shown
from quizzer.store.trouble import told
from quizzer.store.wording import StatementText

Statement = StatementText | str
Values = Mapping[str, object]
Execute = Callable[[Any, str, Values | Sequence[Values]], object]

BUSY_SECONDS: Final = 5.0
_NONE: Final[Values] = {}
_BEGIN: Final = {
    # A writer takes the lock before it reads: one that asked for it later could be refused at once.
    "sqlite": {"read": "BEGIN", "write": "BEGIN IMMEDIATE"},
    # A reader sees one moment, however many statements it needs.
    "postgresql": {"read": "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY", "write": "BEGIN"},
}
_ASKED_OF_SERVERS: Final = {"connect_timeout": 10, "application_name": "quizzer"}  # what a URL may change
_GREETING: Final = {
    "sqlite": (
        "PRAGMA foreign_keys = ON",
        "PRAGMA synchronous = FULL",  # an acknowledged answer outlives a power cut
        "PRAGMA secure_delete = ON",  # an erased trainee is overwritten, not only unlinked
    ),
    "postgresql": (f"SET lock_timeout = {int(BUSY_SECONDS * 1000)}", "SET timezone = 'UTC'"),
}


def plainly(cursor: Any, sql: str, values: Values | Sequence[Values]) -> object:
    """Run one statement; a sequence of values runs it once for each. Tests hand in one that fails."""
    return cursor.execute(sql, values) if isinstance(values, Mapping) else cursor.executemany(sql, values)


class Connection:
    """A connection that opens itself when first used, and runs statements one transaction at a time.

    Threads may share it: each waits for the other's transaction to end. Driver errors leave as StoreError
    (or NotFound, where a trainee is missing).
    """

    def __init__(self, url: StoreUrl, execute: Execute = plainly, place: str = "") -> None:
        self.url = url
        self.place = place or shown(url)
        self.kind = url.kind
        self._execute = execute
        self._driver = _driver(url.kind)
        self._lock = Lock()
        self._connection: Any = None
        self._opened: Identity | None = None

    def ask(self, statement: Statement, values: Values = _NONE) -> list[Any]:
        """The rows of one question, which is a transaction of its own."""
        with self._lock:
            try:
                self._connected()
                return self._try_twice(statement, values)
            except (self._driver.Error, UnicodeDecodeError) as error:
                raise told(error, self.place) from error

    @contextmanager
    def transaction(self, kind: str) -> Iterator[None]:
        """One transaction, `read` or `write`: all of it, or after any exception nothing of it."""
        with self._lock:
            try:
                self._connected()
                try:
                    self._try_twice(_BEGIN[self.kind][kind], _NONE)
                    yield
                    if kind == "write":
                        self._same_file()
                    self.run("COMMIT")
                except BaseException:
                    self._undo()
                    raise
                # Once more: nobody may be told that something is kept which went into a file that has gone since.
                if kind == "write":
                    self._same_file()
            except (self._driver.Error, UnicodeDecodeError) as error:
                raise told(error, self.place) from error

    @contextmanager
    def alone(self) -> Iterator[Any]:
        """The driver's own connection, outside any transaction and held from other threads meanwhile."""
        with self._lock:
            try:
                self._connected()
                yield self._connection
            except (self._driver.Error, UnicodeDecodeError) as error:
                raise told(error, self.place) from error

    def run(self, statement: Statement, values: Values | Sequence[Values] = _NONE) -> Any:
        """The cursor of one statement, inside `transaction` or `alone`."""
        cursor = self._connection.cursor()
        self._execute(cursor, self._text(statement), values)
        return cursor

    def stream(self, statement: Statement) -> Iterator[tuple[Any, ...]]:
        """The rows of one statement as they come, without holding them all."""
        if self.kind == "sqlite":
            return iter(self.run(statement))
        rows: Iterator[tuple[Any, ...]] = self._connection.cursor().stream(self._text(statement))
        return rows

    def close(self) -> None:
        """Let go of the database. The next statement opens it again, unless it was in memory."""
        with self._lock:
            self._drop()

    def _connected(self) -> None:
        if self._connection is None:
            self._connection = _connection(self._driver, self.url)
            for greeting in _GREETING[self.kind]:
                self._connection.execute(greeting)
            self._opened = identity(self.url)

    def _same_file(self) -> None:
        """Raise StoreError if the file that is open is no longer the one at its path, and let go of it."""
        if self._opened is not None and identity(self.url) != self._opened:
            self._drop()
            raise StoreError(
                f"the store {self.place} was deleted, renamed or replaced while it was in use; this was not recorded",
                mend="put the file back in its place or restore a backup, then start again",
            )

    def _try_twice(self, statement: Statement, values: Values) -> list[Any]:
        """The rows; a server that dropped an idle connection is asked once more on a new one."""
        try:
            cursor = self.run(statement, values)
        except self._driver.Error:
            if not getattr(self._connection, "closed", False):
                raise
            self._drop()
            self._connected()
            cursor = self.run(statement, values)
        return cursor.fetchall() if cursor.description else []

    def _undo(self) -> None:
        """Roll back; a connection that cannot even do that is dropped, which undoes as well."""
        try:
            if self._connection is not None:
                self._connection.rollback()
        except self._driver.Error:
            self._drop()

    def _drop(self) -> None:
        connection, self._connection = self._connection, None
        if connection is not None:
            with suppress(self._driver.Error):
                connection.close()

    def _text(self, statement: Statement) -> str:
        if isinstance(statement, str):
            return statement
        return statement.sqlite if self.kind == "sqlite" else statement.postgresql


def _driver(kind: str) -> Any:
    """The driver of a kind of database; the server's is opened only by who has one."""
    if kind == "sqlite":
        return sqlite3
    try:
        import psycopg
    except ImportError as error:
        raise StoreError(
            "a store on a PostgreSQL server needs the driver psycopg, which is not installed",
            mend="install it with: pip install 'psycopg[binary]'",
        ) from error
    return psycopg


def _connection(driver: Any, url: StoreUrl) -> Any:
    """A new connection, that neither begins nor ends a transaction by itself."""
    if url.kind != "sqlite":
        usual = {name: value for name, value in _ASKED_OF_SERVERS.items() if name not in url.options}
        return driver.connect(url.target, autocommit=True, **usual)
    try:
        options = {"timeout": BUSY_SECONDS} | {name: _seconds(name, text) for name, text in url.options.items()}
    except ValueError as error:
        raise StoreError(f"the URL of the store has a wrong option ({error})", mend="leave it out") from error
    is_uri = url.target.startswith("file:")
    return driver.connect(
        url.target or ":memory:", uri=is_uri, check_same_thread=False, isolation_level=None, **options
    )


def _seconds(name: str, text: str) -> float:
    """The value of the one option that a SQLite URL may set. Raises ValueError."""
    if name != "timeout":
        raise ValueError(f"SQLite knows no {name!r:.40}")
    return float(text)
