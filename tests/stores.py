"""What the tests of the store share: where stores are opened, a review to record, what a store holds."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any, TypeVar
from weakref import finalize

import pytest
from sqlalchemy.engine import make_url

from quizzer.paper.record import Form, Item, Paper, Section
from quizzer.schedule import Confidence, FoldRules, Memory, Review, next_memory
from quizzer.store import Change, Correction, MarkedScript, Script, Sitting, Store, open_store
from quizzer.store import compiled as sql
from quizzer.store.connection import Execute, plainly

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)
TODAY = NOON.date()
SERVER = os.environ.get("QUIZZER_TEST_STORE", "")
# Every test of the suite runs on each of these; the server is there when the variable names one. What runs on it says
# "server" in its name or its parameter: by that word `scripts/test-postgres` leaves the others to the suite.
KINDS = ("memory", "file", *(("server",) if SERVER else ()))
Test = TypeVar("Test", bound=Callable[..., None])
_schemas = count()


def on_the_server(test: Test) -> Test:
    """The test, skipped where no server is named; its name has the word that it is chosen by."""
    assert "server" in test.__name__, f"{test.__name__} is run nowhere: say 'server' in its name"
    skipped: Test = pytest.mark.skipif(not SERVER, reason="QUIZZER_TEST_STORE names no server")(test)
    return skipped


@contextmanager
def fresh_url(kind: str, folder: Path) -> Iterator[str]:
    """The URL of a place for a new store: in memory, in a file, or in a schema of its own on the server."""
    if kind == "memory":
        yield "sqlite://"
    elif kind == "file":
        yield f"sqlite:///{folder / 'study.db'}"
    else:
        with _schema() as url:
            yield url


@contextmanager
def opened(kind: str, folder: Path, execute: Execute = plainly) -> Iterator[Store]:
    """A new store."""
    with fresh_url(kind, folder) as url, open_store(url, execute=execute) as store:
        yield store


def in_memory() -> Store:
    """A new store in memory that nobody has to close: it is closed when it is thrown away."""
    store = open_store("sqlite://")
    finalize(store, store._wire.close)
    return store


@contextmanager
def _schema() -> Iterator[str]:
    import psycopg  # only where a server is named

    name = f"quizzer_{os.getpid()}_{next(_schemas)}"
    plain = make_url(SERVER).set(drivername="postgresql")
    with psycopg.connect(plain.render_as_string(hide_password=False), autocommit=True) as server:
        server.execute(f"CREATE SCHEMA {name}".encode())
        try:
            yield plain.update_query_dict({"options": f"-csearch_path={name}"}).render_as_string(hide_password=False)
        finally:
            server.execute(f"DROP SCHEMA {name} CASCADE".encode())


SAMPLE = Review(
    id="r1",
    trainee="t1",
    entry="earthing/loop/zs-design",
    topic="earthing",
    seed=7,
    digest="d1",
    asked='{"stem": "Estimate Z_s"}',
    reply="0.94",
    right=True,
    rounded=False,
    slip=None,
    confidence=Confidence.CERTAIN,
    quality=5,
    drill=False,
    answered_at=NOON,
    day=TODAY,
    seconds=40,
)


def review(id: str, **changes: Any) -> Review:
    """A review like SAMPLE, but with this id and these changes."""
    return SAMPLE._replace(id=id, **changes)


ENTRIES = ("earthing/loop/zs-design", "safety/isolation/order", "testing/ring/cross-reading")
PAPER = Paper(
    id="safety-2026-03-02-7",
    title="Mock paper: safety",
    blueprint="safety",
    edition="BS 7671:2018",
    made_on="2026-03-02",
    seed=7,
    minutes=30,
    pass_mark=2,
    permitted=(),
    sections=(Section("all", "All", 3, all_right=False),),
    forms=tuple(Form(x, x, "", tuple(Item(entry, 7, "d1", "all", "B") for entry in ENTRIES)) for x in "AB"),
)


def sitting(trainee: str, form: str = "A", **changes: Any) -> Sitting:
    """A sitting of PAPER that has just begun."""
    new = Sitting(trainee, PAPER.id, form, "---", "000", 0, 0, 1800, 0, NOON, None)
    return new._replace(**changes)


def script(trainee: str, name: str, **changes: Any) -> Script:
    """A script of PAPER with one right answer."""
    return Script(trainee, name, PAPER.id, "A", "AB-", "table", NOON)._replace(**changes)


MARKED = [
    MarkedScript(
        script(trainee, name, form="B"),
        tuple(
            (review(f"{trainee}-p-{n}", trainee=trainee, entry=entry), next_memory(None, 2 + 2 * (n % 2), TODAY))
            for n, entry in enumerate(ENTRIES)
        ),
    )
    for trainee, name in (("t1", "Ada"), ("t3", "Cara"))
]


# Answers of Ada's from a phone: of an entry answered since, of one that was not, and both out of order.
LATE = [
    review(
        f"late-{n}",
        entry=entry,
        answered_at=NOON - timedelta(days=n),
        day=TODAY - timedelta(days=n),
        quality=2 + n,
        device="a-phone-of-hers",
        sequence=9 - n,
        claimed=True,
    )
    for n, entry in enumerate((ENTRIES[0], ENTRIES[2], ENTRIES[0]))
]


def due_on(day: date, last: date = TODAY) -> Memory:
    """A memory that comes back on `day`."""
    return Memory(250, 2, max(1, (day - last).days), last, day)


def peopled(store: Store) -> Store:
    """The store with Ada (t1) and Ben (t2) in a group, two answers, a challenge, a sitting and a script of each."""
    store.papers.keep(PAPER)
    for trainee, name in (("t1", "Ada"), ("t2", "Ben")):
        store.add_trainee(trainee, name, NOON)
        for n, entry in enumerate(("earthing/loop/zs-design", "safety/isolation/order")):
            answer = review(f"{trainee}-{n}", trainee=trainee, entry=entry, topic=entry.split("/")[0])
            store.record(answer, next_memory(None, answer.quality, TODAY))
        store.challenge("safety/isolation/order", trainee, f"{name} doubts it", "d1", NOON)
        store.papers.begin_sitting(sitting(trainee))
        store.papers.record_scripts(PAPER.id, (), [MarkedScript(script(trainee, name), ())], NOON)
    store.groups.fill("Monday", (), ("t1", "t2"), NOON)
    return store


def correction(id: str, **changes: Any) -> Correction:
    """A correction of Ada's script."""
    return Correction(id, PAPER.id, "t1", "answers", "A", "[]", "[]", "Tess", "misread", NOON)._replace(**changes)


# Ada's script of form A is one of form B; what it left in the schedule changes as well.
CHANGE = Change(
    correction("k1"),
    seen=(script("t1", "Ada"), script("t9", "Adda", form="B"), script("t2", "Ben"), script("t2", "Ben", form="B")),
    last=0,
    removed=(script("t1", "Ada"),),
    put=(script("t1", "Ada", form="B"),),
    gone=(review("t1-0"),),
    added=(review("new", quality=2), review("other", entry="testing/ring/cross-reading", topic="testing")),
)
JOINED = correction("k2", paper="", kind="merge", about="Adda", becomes="Ada")
FIRST_JOINED = correction("k0", paper="", trainee="t2", kind="merge", about="Bena", becomes="Ben")
PARTED = correction("k3", paper="", trainee="t2", kind="unmerge", about="Bena", undoes="k0")


def doubled(store: Store) -> Store:
    """The store of `peopled` with two more: Bena (t8), who is Ben and made one with him, and Adda (t9), who is Ada."""
    for trainee, name in (("t8", "Bena"), ("t9", "Adda")):
        store.add_trainee(trainee, name, NOON)
        for n, entry in enumerate(("earthing/loop/zs-design", "testing/ring/cross-reading")):
            answer = review(f"{trainee}-{n}", trainee=trainee, entry=entry, topic=entry.split("/")[0])
            store.record(answer, next_memory(None, answer.quality, TODAY))
        store.challenge("testing/ring/cross-reading", trainee, f"{name} doubts it", "d1", NOON)
        store.papers.begin_sitting(sitting(trainee))
        store.papers.begin_sitting(sitting(trainee, "B"))
        store.papers.record_scripts(PAPER.id, (), [MarkedScript(script(trainee, name, form="B"), ())], NOON)
        store.groups.fill("Monday", (), (trainee,), NOON)
        store.groups.fill("Tuesday", (), (trainee,), NOON)
    store.corrections.merge(FIRST_JOINED, "t8", FoldRules())
    return store


def held(store: Store) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table."""
    return {table: [tuple(row) for row in store._wire.ask(sql.ROWS[table])] for table in sql.HELD}


def held_in(file: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table of a file, read by a connection of its own."""
    connection = sqlite3.connect(file)
    try:
        return {table: sorted(connection.execute(f"SELECT * FROM {table}")) for table in sql.HELD}  # noqa: S608
    finally:
        connection.close()


def damage(file: Path, table: str) -> None:
    """Overwrite every page that a table and its indexes begin on."""
    connection = sqlite3.connect(file)
    roots = connection.execute("SELECT rootpage FROM sqlite_master WHERE tbl_name = ?", (table,)).fetchall()
    connection.close()
    with file.open("rb+") as raw:
        for (page,) in roots:
            raw.seek((page - 1) * 4096)
            raw.write(b"\xee" * 4096)


class Faulty:
    """Runs statements, and lets the `at`-th since `arm` fail: before it ran, after it, or on the database itself."""

    def __init__(self) -> None:
        self.arm(0)

    def arm(self, at: int, mode: str = "before") -> None:
        """Count from here; 0 never fails."""
        self.seen: list[str] = []
        self.at, self.mode = at, mode

    def __call__(self, cursor: Any, statement: str, values: Any) -> object:
        """One statement, run or failed."""
        self.seen.append(statement)
        if len(self.seen) != self.at:
            return plainly(cursor, statement, values)
        if self.mode == "on the database":
            return plainly(cursor, "SELECT nothing FROM nowhere", {})
        if self.mode == "after":
            plainly(cursor, statement, values)
        raise _error(cursor)("the disk gave up")


def _error(cursor: Any) -> type[Exception]:
    """The driver's own kind of error."""
    if isinstance(cursor, sqlite3.Cursor):
        return sqlite3.OperationalError
    import psycopg

    return psycopg.OperationalError


def in_child(act: Callable[[], object]) -> int:
    """Start `act` in a process of its own and give back its number; the process ends without clean-up."""
    child = os.fork()
    if child == 0:
        try:
            act()
            os._exit(0)
        except BaseException:  # noqa: BLE001
            os._exit(1)
    return child


def ended(child: int) -> int:
    """Wait for a process; 0 if its act came to its end, 1 if it raised, minus the signal that killed it."""
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
