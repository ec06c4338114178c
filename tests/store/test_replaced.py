"""A file that went away or was replaced under a running session: noticed before anything is said to be kept."""

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from quizzer.errors import StoreError
from quizzer.store import connection as wires
from quizzer.store import open_store
from quizzer.store.rescue import restore_store
from tests.stores import NOON, TODAY, held_in, opened, peopled, review

pytestmark = pytest.mark.skipif(os.name == "nt", reason="there a file in use can be neither moved nor deleted")


def deleted(file: Path) -> None:
    file.unlink()


def renamed(file: Path) -> None:
    file.rename(file.with_name("elsewhere.db"))


def replaced(file: Path) -> None:
    shutil.copy(file, file.with_name("copy.db"))
    file.with_name("copy.db").replace(file)


def with_its_folder(file: Path) -> None:
    file.parent.rename(file.parent.with_name("elsewhere"))


AWAY = (deleted, renamed, replaced, with_its_folder)


@pytest.mark.parametrize("away", AWAY, ids=lambda away: away.__name__)
def test_an_answer_is_not_acknowledged_into_a_file_that_has_gone(tmp_path: Path, away: Callable[[Path], None]) -> None:
    folder = tmp_path / "data"
    folder.mkdir()
    with opened("file", folder) as store:
        peopled(store)
        away(folder / "study.db")
        with pytest.raises(StoreError, match="was deleted, renamed or replaced while it was in use") as refusal:
            store.record(review("new"), None)
        assert "start again" in refusal.value.mend


def test_a_file_that_goes_away_in_the_middle_of_a_commit_is_noticed_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with opened("file", tmp_path) as store:
        peopled(store)
        own = wires.identity(store._wire.url)
        seen = iter([own, None])  # there before the commit, gone after it
        monkeypatch.setattr(wires, "identity", lambda _url: next(seen))
        with pytest.raises(StoreError, match="was deleted, renamed or replaced"):
            store.record(review("new"), None)


def test_a_session_notices_that_a_damaged_store_was_swapped_for_a_backup(tmp_path: Path) -> None:
    file = tmp_path / "study.db"
    with opened("file", tmp_path) as store:
        peopled(store).backup(tmp_path / "good.bak")
        file.write_bytes(b"x" * 9000)
        restore_store(str(file), tmp_path / "good.bak", NOON)
        with pytest.raises(StoreError):
            store.record(review("new"), None)
    assert "new" not in {row[0] for row in held_in(file)["review"]}


def test_a_store_put_back_is_used_again(tmp_path: Path) -> None:
    file = tmp_path / "study.db"
    with opened("file", tmp_path) as store:
        peopled(store)
        renamed(file)
        with pytest.raises(StoreError):
            store.record(review("new"), None)
        (tmp_path / "elsewhere.db").rename(file)
        assert store.record(review("new"), None) is True
    with open_store(str(file)) as again:
        assert {r.id for r in again.reviews("t1")} == {"t1-0", "t1-1", "new"}
        assert again.due("t1", TODAY) is not None
