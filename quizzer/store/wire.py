"""One connection to one database, and one transaction on it at a time.

Statements are compiled once and go to the driver as text. SQLAlchemy's own way of running them costs as much
again as SQLite needs for the work, on every answer. Transactions are begun and ended by statements of ours:
the drivers' own habits differ, and SQLite's would leave a failed migration half made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from threading import Lock
from typing import Any, Final

from sqlalchemy.engine import URL, Dialect

from quizzer.errors import StoreError
from quizzer.store.place import Identity, identity, shown
from quizzer.store.statements import Both, Statement
from quizzer.store.trouble import told

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
# How the drivers are called: what a URL may change, and what it may not.
_USUAL: Final[dict[str, Values]] = {
    "sqlite": {"timeout": BUSY_SECONDS},
    "postgresql": {"connect_timeout": 10, "application_name": "quizzer"},
}
_OURS: Final[dict[str, Values]] = {
    "sqlite": {"check_same_thread": False, "isolation_level": None},
    "postgresql": {"autocommit": True},
}
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


class Wire:
    """A connection that opens itself when first used, and runs statements one transaction at a time.

    Threads may share it: each waits for the other's transaction to end. Driver errors leave as StoreError
    (or NotFound, where a trainee is missing).
    """

    def __init__(self, url: URL, execute: Execute = plainly, place: str = "") -> None:
        self.url = url
        self.place = place or shown(url)
        self.kind = url.get_backend_name()
        self._execute = execute
        self._dialect, self._driver = _dialect(url)
        self._compiled: dict[object, tuple[str, Values]] = {}
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
        sql, constants = self._compiled.get(statement) or self._compile(statement)
        cursor = self._connection.cursor()
        if constants and isinstance(values, Mapping):
            values = {**constants, **values}
        self._execute(cursor, sql, values)
        return cursor

    def stream(self, statement: Statement) -> Iterator[tuple[Any, ...]]:
        """The rows of one statement as they come, without holding them all."""
        if self.kind == "sqlite":
            return iter(self.run(statement))
        rows: Iterator[tuple[Any, ...]] = self._connection.cursor().stream(self._compile(statement)[0])
        return rows

    def close(self) -> None:
        """Let go of the database. The next statement opens it again, unless it was in memory."""
        with self._lock:
            self._drop()

    def _connected(self) -> None:
        if self._connection is None:
            try:
                arguments, options = self._dialect.create_connect_args(self.url)
                self._connection = self._driver.connect(
                    *arguments, **{**_USUAL[self.kind], **options, **_OURS[self.kind]}
                )
            except (TypeError, ValueError) as error:  # an option of the URL that the driver does not know
                raise StoreError(f"the URL of the store has a wrong option ({error})", mend="leave it out") from error
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

    def _compile(self, statement: Statement) -> tuple[str, Values]:
        if isinstance(statement, str):
            return statement, _NONE
        one: Any = statement.of(self.kind) if isinstance(statement, Both) else statement
        compiled = one.compile(dialect=self._dialect)
        constants = {name: value for name, value in compiled.params.items() if value is not None}
        self._compiled[statement] = str(compiled), constants
        return self._compiled[statement]


def _dialect(url: URL) -> tuple[Dialect, Any]:
    """SQLAlchemy's dialect for the URL, and the driver behind it."""
    try:
        kind: Any = url.get_dialect()
        dialect = kind(paramstyle="named") if kind.name == "sqlite" else kind()
        return dialect, kind.import_dbapi()
    except ImportError as error:
        raise StoreError(
            "a store on a PostgreSQL server needs the driver psycopg, which is not installed",
            mend="install it with: pip install 'psycopg[binary]'",
        ) from error
