"""`check` finds what is broken, and says so in a sentence."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from quizzer.store import Store, open_store
from tests.stores import damage, peopled


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A store with two trainees in a file that nobody has open."""
    with open_store(str(tmp_path / "study.db")) as store:
        peopled(store)
    return tmp_path / "study.db"


def spoiled(file: Path, *statements: str) -> tuple[str, ...]:
    """What `check` says after somebody has written into the file by hand."""
    with closing(sqlite3.connect(file)) as other:
        for statement in statements:
            other.execute(statement)
        other.commit()
    with open_store(str(file)) as store:
        return store.check()


def test_a_sound_store_has_nothing_to_say(store: Store) -> None:
    assert store.check() == ()
    assert peopled(store).check() == ()


def test_a_memory_without_its_review_is_found(store: Store) -> None:
    peopled(store)._wire.ask("DELETE FROM review WHERE id = 't1-0'")
    assert store.check() == (
        "the memory of earthing/loop/zs-design (trainee t1) was written by no review that is kept",
    )


@pytest.mark.parametrize("change", ["was_drill = 1", "day = '2026-03-01'", "entry = 'x'"])
def test_a_review_that_cannot_have_written_the_memory_does_not_count(store: Store, change: str) -> None:
    peopled(store)._wire.ask(f"UPDATE review SET {change} WHERE id = 't1-0'")  # noqa: S608
    assert len(store.check()) == 1


def test_rows_of_nobody_are_found(file: Path) -> None:
    found = spoiled(file, "DELETE FROM trainee WHERE id = 't1'")
    assert len(found) == 8
    assert all("belongs to a trainee that is not there" in finding for finding in found)


def test_a_value_that_breaks_a_rule_is_found(file: Path) -> None:
    found = spoiled(file, "PRAGMA ignore_check_constraints = ON", "UPDATE memory SET ease = 5 WHERE trainee = 't1'")
    assert "the file is damaged: CHECK constraint failed in memory" in found


def test_an_index_that_lost_a_row_is_found(file: Path) -> None:
    found = spoiled(
        file,
        "PRAGMA writable_schema = ON",
        "UPDATE sqlite_master SET sql = 'CREATE INDEX memory_due ON memory (trainee, last_day, entry)'"
        " WHERE name = 'memory_due'",
    )
    assert any("memory_due" in finding for finding in found)


def test_damaged_pages_are_found_or_told(file: Path) -> None:
    from quizzer.errors import StoreError

    damage(file, "review")
    with open_store(str(file)) as store:
        try:
            found = store.check()
        except StoreError as error:
            found = (error.message,)
    assert any("damaged" in finding for finding in found)
