"""Erasing: nothing of the trainee is left, in no table and in no byte of the file."""

import os
import sqlite3
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from quizzer.errors import NotFound
from quizzer.schedule import next_memory
from quizzer.store import Erased, Store, open_store
from tests.stores import NOON, TODAY, Faulty, held, opened, peopled, review

MARK = "Xanthippe-of-Otter-Quay"


def test_erasing_takes_everything_of_one_and_nothing_of_another(store: Store) -> None:
    before = held(peopled(store))
    erased = store.erase_trainee("t1")
    assert erased == Erased(memories=2, reviews=2, challenges=1, scrubbed=True, copies=(), scripts=1, sittings=1)
    assert held(store) == {name: [row for row in rows if "t1" not in row] for name, rows in before.items()}
    assert store.check() == ()


def test_erasing_nobody_changes_nothing(store: Store) -> None:
    before = held(peopled(store))
    with pytest.raises(NotFound, match="no such trainee"):
        store.erase_trainee("t9")
    assert held(store) == before


def test_an_erased_trainee_may_come_back_as_a_stranger(store: Store) -> None:
    peopled(store).erase_trainee("t1")
    store.add_trainee("t1", "Ada", NOON)
    assert store.standings("t1") == ()


def filled(store: Store) -> None:
    """Two trainees with enough answers, in turn, that pages split and rows overflow; one of them has a secret."""
    store.add_trainee("t2", "Ben", NOON)
    store.add_trainee(f"id-{MARK}", MARK, NOON)
    for n in range(300):
        for trainee, word in (("t2", "plain"), (f"id-{MARK}", MARK)):
            answer = review(
                f"{trainee}-{n * 7919 % 300}",
                trainee=trainee,
                entry=f"{word}/{n}",
                topic=word,
                reply=word * (1 + n % 40),
                asked=word * (n % 300),
                answered_at=NOON + timedelta(seconds=n),
            )
            store.record(answer, next_memory(None, n % 6, TODAY))
    store.challenge("safety/x/y", f"id-{MARK}", f"says {MARK}", "d1", NOON)


def bytes_of(file: Path) -> bytes:
    """Every byte of the store: the file and all that lies beside it."""
    return b"".join(path.read_bytes() for path in sorted(file.parent.glob(file.name + "*")))


def test_no_byte_of_an_erased_trainee_is_left_in_the_files(tmp_path: Path) -> None:
    file = tmp_path / "study.db"
    with open_store(str(file)) as store:
        filled(store)
        assert bytes_of(file).count(MARK.encode()) > 10_000
        assert store.erase_trainee(f"id-{MARK}").scrubbed is True
        assert bytes_of(file).count(MARK.encode()) == 0, "while the store is still open"
        assert len(store.reviews("t2")) == 300
    assert bytes_of(file).count(MARK.encode()) == 0
    assert MARK.lower().encode() not in bytes_of(file)


def test_what_another_program_holds_open_is_scrubbed_at_the_next_opening(tmp_path: Path) -> None:
    file = tmp_path / "study.db"
    with open_store(f"sqlite:///{file}?timeout=0.05") as store:
        filled(store)
        with closing(sqlite3.connect(file, isolation_level=None)) as reader:
            reader.execute("BEGIN")
            reader.execute("SELECT * FROM review").fetchone()
            assert store.erase_trainee(f"id-{MARK}").scrubbed is False
            assert [t.name for t in store.trainees()] == ["Ben"], "gone from the tables all the same"
            assert MARK.encode() in bytes_of(file)
    with open_store(str(file)) as store:
        assert MARK.encode() not in bytes_of(file)
        assert store._wire.ask("SELECT count(*) FROM meta WHERE key = 'scrub'") == [(0,)]


def test_a_scrub_that_failed_is_done_at_the_next_opening(tmp_path: Path) -> None:
    file, faulty = tmp_path / "study.db", Faulty()
    with open_store(str(file), execute=faulty) as store:
        filled(store)
        # Begin, who it is, their papers, eight deletes, the note, commit: the next one writes the file anew.
        faulty.arm(14)
        assert store.erase_trainee(f"id-{MARK}").scrubbed is False
        assert faulty.seen[-1] == "VACUUM"
        assert [t.name for t in store.trainees()] == ["Ben"]
    faulty.arm(0)
    with open_store(str(file), execute=faulty) as store:
        assert "VACUUM" in faulty.seen
        assert MARK.encode() not in bytes_of(file)
        assert len(store.reviews("t2")) == 300
    faulty.arm(0)
    open_store(str(file), execute=faulty).close()
    assert "VACUUM" not in faulty.seen, "once is enough"


def test_copies_that_may_still_hold_the_trainee_are_named(tmp_path: Path) -> None:
    with opened("file", tmp_path) as store:
        peopled(store).backup(tmp_path / "study.bak")
        aside = store.restore(tmp_path / "study.bak", NOON).aside
        assert store.erase_trainee("t1").copies == (aside,)


@pytest.mark.skipif(os.name != "posix", reason="about files in the temporary folder")
def test_scrubbing_leaves_no_file_behind(tmp_path: Path) -> None:
    with opened("file", tmp_path) as store:
        peopled(store).erase_trainee("t1")
    assert [p.name for p in tmp_path.iterdir()] == ["study.db"]
