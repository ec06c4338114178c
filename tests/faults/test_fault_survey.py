"""Let the n-th statement of every verb fail, for n = 1, 2, 3 ... The store shows the old state or the new one.

Each statement fails in three ways: before it ran, on the database itself, and after it ran, when only the word of
it was lost. Afterwards the same store goes on, and asking again brings the new state.
"""

import atexit
import inspect
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from datetime import date, timedelta
from functools import cache, cached_property
from itertools import count
from pathlib import Path

import pytest

from quizzer.errors import NotFound, StoreError
from quizzer.schedule import FoldRules, next_memory
from quizzer.store import KnownBefore, MarkedScript, Newcomer, Store, open_store
from quizzer.store import compiled as sql
from quizzer.store.migrations import NEWEST
from tests.stores import (
    CHANGE,
    FIRST_JOINED,
    JOINED,
    KINDS,
    LATE,
    MARKED,
    NOON,
    PAPER,
    PARTED,
    TODAY,
    Faulty,
    doubled,
    fresh_url,
    held,
    held_in,
    opened,
    peopled,
    review,
    script,
    sitting,
)

MODES = ("before", "on the database", "after")
TIMES = count()
ZS = "earthing/loop/zs-design"
Act = Callable[[Store, Path], object]

CHANGES: dict[str, Act] = {
    "add_trainee": lambda store, _: store.add_trainee("t3", "Cara", NOON),
    "set_exam": lambda store, _: store.set_exam("t1", date(2026, 5, 1)),
    "set_blueprint": lambda store, _: store.set_blueprint("t1", "safety"),
    "set_minutes": lambda store, _: store.set_minutes("t1", 15),
    "record": lambda store, _: store.record(review("new"), next_memory(None, 0, TODAY)),
    "record (a first answer)": lambda store, _: store.record(review("new", entry="e"), next_memory(None, 5, TODAY)),
    "record (a drill)": lambda store, _: store.record(review("new", drill=True), None),
    "record (others came between)": lambda store, _: store.record(
        review("new", answered_at=NOON + timedelta(hours=1)), next_memory(None, 0, TODAY), KnownBefore(None, FoldRules)
    ),
    "receive": lambda store, _: store.receive("t1", LATE, FoldRules()),
    "challenge": lambda store, _: store.challenge(ZS, "t1", "why", "d1", NOON),
    "groups.fill": lambda store, _: store.groups.fill("Tuesday", [Newcomer("t3", "Cara")], ["t1", "t3"], NOON),
    "groups.erase": lambda store, _: store.groups.erase("Monday"),
    "papers.keep": lambda store, _: store.papers.keep(PAPER._replace(id="another")),
    "papers.begin_sitting": lambda store, _: store.papers.begin_sitting(sitting("t1", "B")),
    "papers.save_sitting": lambda store, _: store.papers.save_sitting(sitting("t1", answers="B--", seconds=9)),
    "papers.save_sitting (handed in)": lambda store, _: store.papers.save_sitting(sitting("t1", submitted_at=NOON)),
    "papers.record_scripts": lambda store, _: store.papers.record_scripts(
        PAPER.id, [Newcomer("t3", "Cara")], MARKED, NOON
    ),
    "corrections.apply": lambda store, _: store.corrections.apply(CHANGE, FoldRules()),
    "corrections.merge": lambda store, _: store.corrections.merge(JOINED, "t9", FoldRules()),
    "corrections.unmerge": lambda store, _: store.corrections.unmerge(PARTED, (), FoldRules()),
    "erase_trainee": lambda store, _: store.erase_trainee("t1"),
    "restore": lambda store, folder: store.restore(folder / "other.bak", NOON + timedelta(seconds=next(TIMES))),
}
QUESTIONS: dict[str, Act] = {
    "find_trainee": lambda store, _: store.find_trainee("Ada"),
    "trainees": lambda store, _: store.trainees(),
    "standings": lambda store, _: store.standings("t1"),
    "due": lambda store, _: store.due("t1", TODAY),
    "memory": lambda store, _: store.memory("t1", ZS),
    "record (again)": lambda store, _: store.record(review("t1-0"), next_memory(None, 5, TODAY)),
    "receive (again)": lambda store, _: store.receive("t1", [review("t1-0")], FoldRules()),
    "groups.every": lambda store, _: store.groups.every(),
    "groups.members": lambda store, _: store.groups.members("Monday"),
    "papers.find": lambda store, _: store.papers.find(PAPER.id),
    "papers.every": lambda store, _: store.papers.every(),
    "papers.keep (again)": lambda store, _: store.papers.keep(PAPER),
    "answers": lambda store, _: store.answers("t1"),
    "first_answers": lambda store, _: store.first_answers("t1"),
    "papers.facilities": lambda store, _: store.papers.facilities(),
    "papers.recent_questions": lambda store, _: store.papers.recent_questions(["Ada"]),
    "papers.sittings": lambda store, _: store.papers.sittings(PAPER.id),
    "papers.begin_sitting (again)": lambda store, _: store.papers.begin_sitting(sitting("t1")),
    "papers.scripts": lambda store, _: store.papers.scripts(PAPER.id),
    "papers.record_scripts (again)": lambda store, _: store.papers.record_scripts(
        PAPER.id, (), [MarkedScript(script("t1", "Ada"), ())], NOON
    ),
    "corrections.of_paper": lambda store, _: store.corrections.of_paper(PAPER.id),
    "corrections.merges": lambda store, _: store.corrections.merges(),
    "corrections.left": lambda store, _: store.corrections.left(["t1-0", "t1-1"]),
    "corrections.merge (again)": lambda store, _: store.corrections.merge(FIRST_JOINED, "t8", FoldRules()),
    "challenges": lambda store, _: store.challenges(),
    "reviews": lambda store, _: store.reviews("t1"),
    "tallies": lambda store, _: store.tallies("t1"),
    "export_trainee": lambda store, _: store.export_trainee("t1"),
    "info": lambda store, _: store.info(),
    "check": lambda store, _: store.check(),
    "backup": lambda store, folder: store.backup(folder / f"new.bak{next(TIMES)}"),
}


def test_every_verb_is_surveyed() -> None:
    with open_store("sqlite://") as store:
        named = [name for name, kind in vars(Store).items() if isinstance(kind, cached_property)]
        parts = {name: getattr(store, name) for name in named}
    verbs = _verbs(store) - {"close"} | {f"{name}.{verb}" for name, part in parts.items() for verb in _verbs(part)}
    assert set(parts) >= {"groups", "papers"}
    assert {name.split(" ")[0] for name in (*CHANGES, *QUESTIONS)} == verbs


def _verbs(one: object) -> set[str]:
    return {name for name, _ in inspect.getmembers(type(one), inspect.isfunction) if not name.startswith("_")}


@contextmanager
def surveyed(kind: str, folder: Path, faulty: Faulty) -> Iterator[Store]:
    """A store with two trainees, whose statements can be made to fail."""
    faulty.arm(0)
    if kind == "server":
        with _served(faulty) as store:
            yield store
        return
    if kind == "file":
        (folder / "study.db").write_bytes(_people())
    with opened(kind, folder, faulty) as store:
        if kind == "memory":
            store._wire._connection.deserialize(_people())
        yield store
    (folder / "study.db").unlink(missing_ok=True)


@cache
def _people() -> bytes:
    """A file of a store with the two trainees and those that they are made one with, written once for all faults."""
    with open_store("sqlite://") as store:
        whole: bytes = doubled(peopled(store))._wire._connection.serialize()
    return whole


@contextmanager
def _served(faulty: Faulty) -> Iterator[Store]:
    """The same people on the server: in a schema that is made once, with its rows put back."""
    url, rows = _schema_of_people()
    with open_store(url, execute=faulty) as store:
        connection = store._wire._connection
        connection.execute("; ".join(f"DELETE FROM {table}" for table in reversed(rows)))  # noqa: S608
        for table, values in rows.items():
            if values:
                places = ", ".join(["%s"] * len(values[0]))
                connection.cursor().executemany(f"INSERT INTO {table} VALUES ({places})", values)  # noqa: S608
        yield store


@cache
def _schema_of_people() -> tuple[str, dict[str, list[tuple[object, ...]]]]:
    """A schema with the people, which goes with this process, and its rows by table."""
    until_the_end = ExitStack()
    atexit.register(until_the_end.close)
    url = until_the_end.enter_context(fresh_url("server", Path()))
    with open_store(url) as store:
        connection = doubled(peopled(store))._wire._connection
        return url, {table: connection.execute(f"SELECT * FROM {table}").fetchall() for table in sql.HELD}  # noqa: S608


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a backup of another store."""
    with opened("memory", tmp_path) as other:
        other.add_trainee("t7", "Zoe", NOON)
        other.record(review("r7", trainee="t7"), next_memory(None, 5, TODAY))
        other.backup(tmp_path / "other.bak")
    return tmp_path


def shows(store: Store, folder: Path) -> dict[str, list[tuple[object, ...]]]:
    """What the store holds, and the same seen from outside where that can be."""
    state = {name: sorted(rows) for name, rows in held(store).items()}
    file = folder / "study.db"
    if file.exists():
        assert held_in(file) == state
    return state


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("verb", CHANGES)
def test_a_change_happens_whole_or_not_at_all(verb: str, kind: str, mode: str, folder: Path) -> None:
    act, faulty = CHANGES[verb], Faulty()
    with surveyed(kind, folder, faulty) as store:
        old = shows(store, folder)
        faulty.arm(0)
        act(store, folder)
        statements, new = len(faulty.seen), shows(store, folder)
    assert new != old
    assert statements >= 3, "begin, at least one change, commit"
    for n in range(1, statements + 1):
        with surveyed(kind, folder, faulty) as store:
            _fails_whole(store, folder, faulty, act, (n, mode), (old, new))


State = dict[str, list[tuple[object, ...]]]


def _fails_whole(
    store: Store, folder: Path, faulty: Faulty, act: Act, fault: tuple[int, str], states: tuple[State, State]
) -> None:
    """One fault: an error that is told, the old state or the new, and the new one when asked again."""
    beside = set(folder.glob("*before-restore*"))
    faulty.arm(*fault)
    raised = _told(act, store, folder)
    committing = faulty.seen[-1] == "COMMIT"
    faulty.arm(0)
    state = shows(store, folder)
    assert state in states, f"statement {fault}: something between"
    assert raised or state == states[1], "no error was told, so it must have happened"
    if not committing:
        assert set(folder.glob("*before-restore*")) == beside, "nothing was replaced, so nothing is kept aside"
    if state == states[0]:
        act(store, folder)
    else:
        _told(act, store, folder)
    assert shows(store, folder) == states[1]
    assert store.check() == ()


def _told(act: Act, store: Store, folder: Path) -> bool:
    """Whether the act ended in a refusal; anything but a refusal goes on up."""
    try:
        act(store, folder)
    except (StoreError, NotFound) as error:
        return bool(error.mend)
    return False


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("verb", QUESTIONS)
def test_a_question_that_fails_changes_nothing(verb: str, kind: str, mode: str, folder: Path) -> None:
    act, faulty = QUESTIONS[verb], Faulty()
    with surveyed(kind, folder, faulty) as store:
        old = shows(store, folder)
        faulty.arm(0)
        act(store, folder)
        beside = set(folder.iterdir())
        for n in range(1, len(faulty.seen) + 1):
            faulty.arm(n, mode)
            assert _told(act, store, folder), f"statement {n} failed and nothing was told"
            faulty.arm(0)
            assert shows(store, folder) == old
            assert set(folder.iterdir()) == beside, "no half backup"
            act(store, folder)
            beside = set(folder.iterdir())


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "memory"])
def test_opening_makes_a_whole_store_or_nothing(kind: str, mode: str, tmp_path: Path) -> None:
    faulty = Faulty()
    with fresh_url(kind, tmp_path) as url:
        open_store(url, execute=faulty).close()
    statements = len(faulty.seen)
    assert statements > 8
    for n in range(1, statements + 1):
        (tmp_path / "study.db").unlink(missing_ok=True)
        with fresh_url(kind, tmp_path) as url:
            faulty.arm(n, mode)
            with pytest.raises(StoreError):
                open_store(url, execute=faulty).close()
            with open_store(url) as store:
                assert store.info().version == NEWEST
                assert not (*store.trainees(), *store.check())


def test_a_restore_that_only_lost_its_last_word_still_keeps_the_old_aside(folder: Path) -> None:
    act, faulty = CHANGES["restore"], Faulty()
    with surveyed("file", folder, faulty) as store:
        faulty.arm(0)
        act(store, folder)
        last = len(faulty.seen)
        assert faulty.seen[-1] == "COMMIT"
    with surveyed("file", folder, faulty) as store:
        old, beside = held(store), set(folder.glob("study.db.before-restore*"))
        faulty.arm(last, "after")
        assert _told(act, store, folder)
        faulty.arm(0)
        (aside,) = set(folder.glob("study.db.before-restore*")) - beside
        with opened("memory", folder) as other:
            other.restore(aside, NOON)
            assert held(other) == old
