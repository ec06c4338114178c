"""Backup and restore: consistent, proved before it is trusted, and never half done."""

import json
import os
import re
import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from quizzer.errors import Refused, StoreError
from quizzer.store import Counts, Store, backups, open_store, opening
from quizzer.store import json_backup as backup_lines
from quizzer.store.backups import staged
from quizzer.store.connection import plainly
from quizzer.store.migrations import MIGRATIONS, NEWEST, Migration
from quizzer.store.rescue import restore_store
from quizzer.store.restoring import swap_in
from tests.stores import KINDS, NOON, damage, ended, held, in_child, opened, peopled, review

ALL_OF_IT = Counts(
    trainees=2, memories=4, reviews=4, challenges=2, groups=1, members=2, papers=1, sittings=2, scripts=2
)
STORE_ROOM = str(Path("quizzer", "store"))
SOUND = "the store itself was not touched"


@pytest.fixture
def backup(tmp_path: Path) -> Path:
    """A backup of two trainees, from a SQLite file."""
    return made(tmp_path, "file")


@pytest.fixture
def lines(tmp_path: Path) -> Path:
    """The same as lines of JSON, as a server writes them."""
    return made(tmp_path, "file", as_lines=True)


def made(folder: Path, kind: str, *, as_lines: bool = False) -> Path:
    """A backup in `folder` of a store that is gone again."""
    origin = folder / "origin"
    origin.mkdir(exist_ok=True)
    path = folder / "study.bak"
    with opened(kind, origin) as store:
        peopled(store)
        if as_lines:
            from quizzer.store.json_backup import write_lines

            with path.open("wb") as out:
                write_lines(store._wire, out)
        else:
            store.backup(path)
    return path


def test_a_backup_holds_all_and_comes_back(store: Store, tmp_path: Path) -> None:
    before = held(peopled(store))
    assert store.backup(tmp_path / "study.bak") == ALL_OF_IT
    store.erase_trainee("t1")
    store.record(review("after", trainee="t2"), None)
    restored = store.restore(tmp_path / "study.bak", NOON)
    assert restored.counts == ALL_OF_IT
    assert held(store) == before
    assert store.check() == ()


@pytest.mark.parametrize("origin", KINDS)
def test_any_backup_goes_into_any_store(store: Store, tmp_path: Path, origin: str) -> None:
    path = made(tmp_path, origin)
    with opened("memory", tmp_path) as same:
        expected = held(peopled(same))
    store.restore(path, NOON)
    assert held(store) == expected


def test_a_server_writes_lines_and_a_file_a_file(store: Store, tmp_path: Path) -> None:
    peopled(store).backup(tmp_path / "study.bak")
    head = (tmp_path / "study.bak").read_bytes()[:15]
    assert head == (b'{"quizzer":"bac' if store.info().kind == "PostgreSQL" else b"SQLite format 3")


def test_a_backup_is_one_file_that_nobody_else_may_read(store: Store, tmp_path: Path) -> None:
    (tmp_path / "new").mkdir()
    peopled(store).backup(tmp_path / "new" / "study.bak")
    assert [p.name for p in (tmp_path / "new").iterdir()] == ["study.bak"]
    if os.name == "posix":
        assert (tmp_path / "new" / "study.bak").stat().st_mode & 0o077 == 0


def test_a_backup_never_overwrites(store: Store, tmp_path: Path) -> None:
    path = tmp_path / "precious"
    path.write_text("mine")
    with pytest.raises(Refused, match="there is already a file at"):
        store.backup(path)
    assert path.read_text() == "mine"


def test_a_backup_to_a_missing_folder_is_told(store: Store, tmp_path: Path) -> None:
    with pytest.raises(StoreError, match=r"cannot be written to .*no/study\.bak: No such file or directory"):
        store.backup(tmp_path / "no" / "study.bak")


def test_a_damaged_store_gives_no_backup(tmp_path: Path) -> None:
    made(tmp_path, "file")
    damage(tmp_path / "origin" / "study.db", "review")
    with open_store(str(tmp_path / "origin" / "study.db")) as store, pytest.raises(StoreError) as refusal:
        store.backup(tmp_path / "new.bak")
    assert refusal.value.message.startswith("no backup was made, because the store ")
    assert not list(tmp_path.glob("*new*"))


def test_a_restore_puts_the_old_aside(store: Store, tmp_path: Path, backup: Path) -> None:
    store.add_trainee("t9", "Zoe", NOON)
    aside = store.restore(backup, NOON).aside
    if store.info().place == "memory":
        assert aside is None
        return
    assert aside is not None
    assert aside.name.endswith(".before-restore-20260302-120000-000000")
    with opened("memory", tmp_path) as other:
        other.restore(aside, NOON)
        assert [t.name for t in other.trainees()] == ["Zoe"]
    if store.info().kind == "SQLite":
        assert store.info().copies == (aside,)


def test_a_restore_that_loses_rows_on_the_way_is_undone(tmp_path: Path, backup: Path) -> None:
    def forgetful(cursor: Any, statement: str, values: Any) -> object:
        return plainly(cursor, statement, values[1:] if "INTO challenge" in statement else values)

    with opened("file", tmp_path, forgetful) as store:
        store.add_trainee("t9", "Zoe", NOON)
        with pytest.raises(StoreError, match="did not take every row"):
            store.restore(backup, NOON)
        assert [t.name for t in store.trainees()] == ["Zoe"]
        assert store.info().copies == ()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the other program is forked")
def test_no_answer_falls_between_what_is_kept_aside_and_what_is_restored(tmp_path: Path, busy: Path) -> None:
    path = made(tmp_path, "memory")
    with open_store(str(busy)) as store:
        aside = store.restore(path, NOON).aside
        after = {r.id for r in store.reviews("t1") if r.id.startswith("n")}
    assert aside is not None
    with opened("memory", tmp_path) as other:
        other.restore(aside, NOON)
        before = {r.id for r in other.reviews("t1")}
    assert not before & after
    numbers = sorted(int(id[1:]) for id in before | after)
    assert numbers == list(range(len(numbers)))


def test_what_a_killed_restore_left_behind_is_named(tmp_path: Path) -> None:
    with opened("file", tmp_path) as store:
        (tmp_path / ".quizzer-restore-x").mkdir()
        (tmp_path / ".study.db.before-restore-20260302.x").touch()
        assert [p.name for p in store.info().copies] == [".quizzer-restore-x", ".study.db.before-restore-20260302.x"]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the program that is killed is forked")
@pytest.mark.parametrize("verb", ["restore", "backup", "swap"])
def test_what_a_killed_program_left_half_made_is_swept_by_the_next_restore(
    tmp_path: Path, backup: Path, verb: str
) -> None:
    file, left = tmp_path / "study.db", 0
    with open_store(str(file)) as store:
        store.add_trainee("t9", "Zoe", NOON)
    for at in range(20, 4000, 150):

        def change(at: int = at) -> None:
            kill_at_call(at)
            if verb == "backup":
                with open_store(str(file)) as store:
                    store.backup(tmp_path / "new.bak")
            elif verb == "restore":
                restore_store(str(file), backup, NOON)
            else:
                swap_in(file, backup, NOON)

        if ended(in_child(change)) == 0:
            break
        left += any(tmp_path.glob(".quizzer-restore-*"))
    assert left, "no kill left anything behind"
    restore_store(str(file), backup, NOON + timedelta(seconds=1))
    assert sorted(path.name for path in tmp_path.glob(".*")) == []


def kill_at_call(at: int) -> None:
    """Kill this process at the `at`-th call that the store's room makes from here on, of ours or of a library."""
    left = at

    def watch(frame: Any, event: str, _: Any) -> None:
        nonlocal left
        if event in ("call", "c_call") and STORE_ROOM in frame.f_code.co_filename:
            left -= 1
            if left == 0:
                os.kill(os.getpid(), 9)

    sys.setprofile(watch)


def test_a_stage_in_use_is_not_swept(tmp_path: Path, backup: Path) -> None:
    with staged(backup, tmp_path) as wire:
        with staged(backup, tmp_path):
            pass
        assert wire.ask("SELECT count(*) FROM trainee") == [(2,)]
    assert list(tmp_path.glob(".quizzer-restore-*")) == []


def test_a_link_that_looks_like_a_stage_is_left_alone(tmp_path: Path, backup: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / ".quizzer-restore-x").symlink_to(tmp_path / "mine")
    with staged(backup, tmp_path):
        pass
    assert (tmp_path / "mine").is_dir()


def on_a_small_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every file that a copy goes into have room for four pages, by SQLite's own limit."""
    connect = sqlite3.connect

    def small(*args: Any, **options: Any) -> sqlite3.Connection:
        connection = connect(*args, **options)
        connection.execute("PRAGMA max_page_count = 4")
        return connection

    monkeypatch.setattr(backups.sqlite3, "connect", small)


def test_a_full_disk_under_a_backup_is_told_as_that_of_the_backup(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with opened("file", tmp_path) as store:
        peopled(store)
        with monkeypatch.context() as small:
            on_a_small_disk(small)
            with pytest.raises(StoreError, match=r"cannot be written to .*new\.bak: No space left") as refusal:
                store.backup(tmp_path / "new.bak")
        assert "study.db" not in refusal.value.message
        assert sorted(path.name for path in tmp_path.glob("*bak*")) == []


def test_a_full_disk_under_a_restore_is_told_as_that_of_the_store(
    tmp_path: Path, backup: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with opened("file", tmp_path) as store:
        on_a_small_disk(monkeypatch)
        with pytest.raises(StoreError, match=f"the disk is full: .* cannot be unpacked in {tmp_path}") as refusal:
            store.restore(backup, NOON)
        assert "free some space" in refusal.value.mend


def test_a_folder_that_may_not_be_written_is_told_by_a_restore(tmp_path: Path, backup: Path) -> None:
    with pytest.raises(StoreError, match="cannot be unpacked"), staged(backup, tmp_path / "no such folder"):
        pass


def test_restoring_into_an_empty_store_puts_nothing_aside(store: Store, backup: Path) -> None:
    assert store.restore(backup, NOON).aside is None


# What is refused, with the store untouched


def truncated(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def short_of_its_last_line(path: Path) -> None:
    path.write_bytes(b"".join(path.read_bytes().splitlines(keepends=True)[:-1]))


def short_of_a_row(path: Path) -> None:
    rows = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join([*rows[:4], *rows[5:]]))


def with_junk_at_its_end(path: Path) -> None:
    path.write_bytes(path.read_bytes() + b"\0")


def with_a_list_at_its_end(path: Path) -> None:
    short_of_its_last_line(path)
    path.write_bytes(path.read_bytes() + b"[]\n")


def with_a_huge_number(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b'"seed":7', b'"seed":' + b"7" * 40))


def altered(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b"Ada", b"Eve"))


def scribbled(path: Path) -> None:
    damage(path, "review")


def of_another_program(path: Path) -> None:
    path.unlink()
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE recipes (name TEXT)")
        other.commit()


def without_a_table(path: Path) -> None:
    path.unlink()
    with closing(sqlite3.connect(path)) as other:
        other.execute("PRAGMA user_version = 1")
        other.commit()


def without_a_column(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("ALTER TABLE challenge RENAME COLUMN digest TO hash")
        other.commit()


def newer(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("UPDATE meta SET value = '9' WHERE key = 'version'")
        other.commit()


def with_an_orphan(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("DELETE FROM trainee WHERE id = 't1'")
        other.commit()


def without_its_reviews(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("DELETE FROM review")
        other.commit()


def text(content: str) -> Callable[[Path], None]:
    """Overwrite the backup by this."""

    def write(path: Path) -> None:
        path.write_text(content, encoding="utf-8")

    return write


HEAD = '{"quizzer":"backup","version":%s}\n'
BAD_FILES = [
    (truncated, "damaged|malformed"),
    (scribbled, "damaged|malformed"),
    (of_another_program, "not a quizzer store"),
    (without_a_table, "there is no store at"),
    (without_a_column, "no such column"),
    (newer, f"version 9, and this program knows versions up to {NEWEST}"),
    (with_an_orphan, "belongs to a trainee that is not there"),
    (without_its_reviews, "was written by no review that is kept"),
    (text(""), "not a backup of a quizzer store"),
    (text("a letter to the tutor\n" * 99), "not a backup of a quizzer store"),
    (text("SQLite format 3\0 and then nothing of the kind"), "not a store|damaged|malformed"),
    (Path.unlink, "No such file or directory"),
]
BAD_LINES = [
    (truncated, "damaged or was altered"),
    (short_of_its_last_line, "damaged or was altered"),
    (short_of_a_row, "rows are missing"),
    (altered, "its checksum is not that of its lines"),
    (text(HEAD % 9), f"version 9, and this program knows versions up to {NEWEST}"),
    (text(HEAD % 1), "its end is missing"),
    (text(HEAD % '"x"'), "damaged or was altered"),
    (text('{"quizzer"' + "[" * 100_000), "damaged or was altered"),
    (text('{"quizzer":\n'), "damaged or was altered"),
    (text(HEAD % 1 + "[]\n"), "a line is not an object"),
    (with_junk_at_its_end, "something follows after its end"),
    (with_a_list_at_its_end, "damaged or was altered"),
    (with_a_huge_number, "damaged or was altered"),
    (text(HEAD % 1 + '{"table":"sqlite_master","row":{}}\n'), "damaged or was altered"),
    (text(HEAD % 1 + '{"table":"trainee","row":{"id":"t1"}}\n'), "a row of trainee has strange columns"),
    (text(HEAD % 1 + '{"table":"trainee","row":{"id\\") --":1}}\n'), "a row of trainee has strange columns"),
]


@pytest.mark.parametrize(("spoil", "says"), BAD_FILES, ids=lambda v: getattr(v, "__name__", ""))
def test_a_bad_file_is_refused_before_anything_is_touched(
    store: Store, backup: Path, spoil: Callable[[Path], object], says: str
) -> None:
    refused(store, backup, spoil, says)


@pytest.mark.parametrize(("spoil", "says"), BAD_LINES, ids=lambda v: getattr(v, "__name__", ""))
def test_bad_lines_are_refused_before_anything_is_touched(
    store: Store, lines: Path, spoil: Callable[[Path], object], says: str
) -> None:
    refused(store, lines, spoil, says)


def test_a_line_without_end_is_read_no_further_than_a_row_can_be_long(
    store: Store, lines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup_lines, "LONGEST", 5_000)
    endless = HEAD % 1 + '{"table":"trainee","row":{"id":"' + "x" * 10_000
    refused(store, lines, text(endless), "a line is longer than any row")


def refused(store: Store, path: Path, spoil: Callable[[Path], object], says: str) -> None:
    """Spoil the backup and see it refused, in a sentence and without a trace."""
    store.add_trainee("t9", "Zoe", NOON)
    before, beside = held(store), set(path.parent.rglob("*"))
    spoil(path)
    with pytest.raises(StoreError, match=f"the backup {re.escape(str(path))} cannot be used: ") as refusal:
        store.restore(path, NOON)
    assert re.search(says, refusal.value.message)
    assert "\n" not in refusal.value.message
    assert SOUND in refusal.value.mend
    assert held(store) == before
    assert set(path.parent.rglob("*")) <= beside


def test_a_folder_is_no_backup(store: Store, tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="cannot be used: Is a directory"):
        store.restore(tmp_path, NOON)


def test_a_store_is_no_backup_of_itself(tmp_path: Path) -> None:
    with opened("file", tmp_path) as store, pytest.raises(Refused, match="is the store itself"):
        peopled(store).restore(tmp_path / "study.db", NOON)


def test_lines_of_an_older_version_are_brought_up_to_date(
    tmp_path: Path, lines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    second = Migration(NEWEST + 1, ("ALTER TABLE meta ADD COLUMN since TEXT",))
    monkeypatch.setattr(opening, "MIGRATIONS", (*MIGRATIONS, second))
    monkeypatch.setattr(opening, "NEWEST", NEWEST + 1)
    monkeypatch.setattr(opening.prepare, "__kwdefaults__", {"upto": NEWEST + 1})
    with staged(lines, tmp_path) as wire:
        assert wire.ask("SELECT since FROM meta WHERE key = 'version'") == [(None,)]
    with opened("file", tmp_path) as store:
        assert store.restore(lines, NOON).counts == ALL_OF_IT


def test_lines_say_what_they_hold(lines: Path) -> None:
    values = [json.loads(line) for line in lines.read_text(encoding="utf-8").splitlines()]
    assert values[0] == {"quizzer": "backup", "version": NEWEST}
    tables = {"trainee": 2, "memory": 4, "review": 4, "challenge": 2, "trainee_group": 1, "group_member": 2}
    tables |= {"paper": 1, "sitting": 2, "script": 2}
    assert [v["table"] for v in values[1:-2]] == [name for name, rows in tables.items() for _ in range(rows)]
    assert values[-2] == {"counts": ALL_OF_IT._asdict()}
    assert len(values[-1]["sha256"]) == 64


# A store too damaged to be opened


def ruined(file: Path, how: str) -> None:
    """Damage a store in one of the ways that keep it from opening or from being read."""
    if how == "head":
        file.write_bytes(b"x" * 100 + file.read_bytes()[100:])
    elif how == "half":
        truncated(file)
    else:
        damage(file, "review")


@pytest.mark.parametrize("how", ["head", "half", "pages"])
def test_a_damaged_store_is_swapped_for_the_backup_and_kept_aside(tmp_path: Path, backup: Path, how: str) -> None:
    file = tmp_path / "study.db"
    with open_store(str(file)) as store:
        store.add_trainee("t9", "Zoe", NOON)
        store.record(review("r9", trainee="t9"), None)
    ruined(file, how)
    damaged = file.read_bytes()
    restored = restore_store(str(file), backup, NOON)
    assert restored.counts == ALL_OF_IT
    assert restored.aside is not None
    assert restored.aside.read_bytes() == damaged
    with open_store(str(file)) as store:
        assert (store.info().counts, store.check()) == (ALL_OF_IT, ())


def test_the_write_ahead_of_a_damaged_store_goes_aside_with_it(tmp_path: Path, backup: Path) -> None:
    file = tmp_path / "study.db"
    file.write_bytes(b"x" * 9000)
    ahead = tmp_path / "study.db-wal"
    ahead.write_bytes(b"old pages")
    aside = swap_in(file, backup, NOON).aside
    assert not ahead.exists()
    assert Path(f"{aside}-wal").read_bytes() == b"old pages"


def test_a_damaged_store_is_left_alone_when_the_backup_is_damaged_too(tmp_path: Path, backup: Path) -> None:
    file = tmp_path / "study.db"
    file.write_bytes(b"x" * 9000)
    truncated(backup)
    with pytest.raises(StoreError, match=f"the backup {backup} cannot be used"):
        restore_store(str(file), backup, NOON)
    assert file.read_bytes() == b"x" * 9000
    assert sorted(p.name for p in tmp_path.iterdir()) == ["origin", "study.bak", "study.db"]


def test_a_missing_store_is_made_from_the_backup(tmp_path: Path, backup: Path) -> None:
    assert restore_store(str(tmp_path / "new.db"), backup, NOON).aside is None
    with open_store(str(tmp_path / "new.db"), create=False) as store:
        assert store.info().counts == ALL_OF_IT


def test_a_database_of_somebody_else_is_not_swapped(tmp_path: Path, backup: Path) -> None:
    other = tmp_path / "other.db"
    other.touch()
    of_another_program(other)
    before = other.read_bytes()
    with pytest.raises(StoreError, match="not a quizzer store"):
        restore_store(str(other), backup, NOON)
    assert other.read_bytes() == before


# In use


@pytest.fixture
def busy(tmp_path: Path) -> Iterator[Path]:
    """A store that another program fills all the while, each answer with its memory."""
    file = tmp_path / "study.db"
    with open_store(str(file)) as store:
        store.add_trainee("t1", "Ada", NOON)

    def fill() -> None:
        from quizzer.schedule import next_memory

        with open_store(str(file)) as own:
            n = 0
            while True:
                own.record(review(f"n{n}", entry=f"e{n}"), next_memory(None, 5, NOON.date()))
                n += 1

    child = in_child(fill)
    yield file
    os.kill(child, 9)
    ended(child)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the other program is forked")
def test_a_backup_of_a_store_in_use_is_of_one_moment(tmp_path: Path, busy: Path) -> None:
    with open_store(str(busy)) as store:
        counts = [store.backup(tmp_path / f"{n}.bak") for n in range(5)]
    assert all(c.reviews == c.memories for c in counts), "no answer without its memory"
    assert counts == sorted(counts, key=lambda c: c.reviews)
