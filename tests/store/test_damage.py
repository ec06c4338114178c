"""A store that was flipped, scribbled on or altered by hand is told as damaged, and can be restored over."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from random import Random

import pytest

from quizzer.errors import QuizzerError, StoreError
from quizzer.store import Store, open_store
from quizzer.store.rescue import restore_store
from quizzer.store.trouble import is_damage
from tests.stores import NOON, PAPER, opened, peopled, review

PAGE = 4096
LOOKS: tuple[Callable[[Store], object], ...] = (
    lambda store: store.check(),
    lambda store: store.info(),
    lambda store: store.trainees(),
    lambda store: store.find_trainee("Ada"),
    lambda store: store.standings("t1"),
    lambda store: store.reviews("t1"),
    lambda store: store.answers("t1"),
    lambda store: store.tallies("t1"),
    lambda store: store.challenges(),
    lambda store: store.groups.every(),
    lambda store: store.papers.every(),
    lambda store: store.papers.facilities(),
    lambda store: store.papers.recent_questions(["Ada"]),
    lambda store: store.papers.sittings(PAPER.id),
    lambda store: store.papers.scripts(PAPER.id),
    lambda store: store.export_trainee("t1"),
    lambda store: store.record(review("more"), None),
)


@pytest.fixture
def backup(tmp_path: Path) -> Path:
    """A sound backup of two trainees."""
    with opened("memory", tmp_path) as store:
        peopled(store).backup(tmp_path / "good.bak")
    return tmp_path / "good.bak"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A store in a file that nobody has open."""
    with open_store(str(tmp_path / "study.db")) as store:
        peopled(store)
    return tmp_path / "study.db"


def flipped(content: bytes, dice: Random) -> bytes:
    """The bytes with some of them changed, all in one page (the first three hold what the tables are)."""
    changed = bytearray(content)
    pages = len(content) // PAGE
    page = int(dice.random() * (3 if dice.random() < 0.5 else pages))
    for _ in range(1 + int(dice.random() * 24)):
        changed[page * PAGE + int(dice.random() * PAGE)] ^= 1 + int(dice.random() * 255)
    return bytes(changed)


def look_at_everything(path: Path) -> list[QuizzerError]:
    """The refusals of a store's verbs; anything but a refusal escapes."""
    refused = []
    try:
        with open_store(str(path)) as store:
            for look in LOOKS:
                try:
                    look(store)
                except QuizzerError as error:
                    refused.append(error)
    except StoreError as error:
        refused.append(error)
    return refused


def put_back(path: Path, content: bytes) -> None:
    """Write a store's bytes with nothing beside them."""
    for beside in path.parent.glob(f"{path.name}-*"):
        beside.unlink()
    path.write_bytes(content)


@pytest.mark.parametrize("seed", range(4))
def test_random_flips_are_told_and_can_be_restored_over(file: Path, backup: Path, seed: int) -> None:
    dice, whole = Random(seed), file.read_bytes()
    for _ in range(8):
        put_back(file, flipped(whole, dice))
        for error in look_at_everything(file):
            assert "\n" not in error.message
            assert error.mend
        refused = refusal_of_restore(file, backup)
        # Only what no longer looks like a store of ours may be somebody else's, or a later program's, or past reading.
        allowed = ("not a quizzer store", "versions up to", "would not read or write")
        assert not refused or any(words in refused for words in allowed), refused
        for aside in file.parent.glob("study.db.before-restore-*"):
            aside.unlink()


def refusal_of_restore(file: Path, backup: Path) -> str:
    """Restore, and see that all is there again; or what the refusal said."""
    try:
        restore_store(str(file), backup, NOON)
    except StoreError as error:
        return error.message
    with open_store(str(file)) as store:
        assert (len(store.trainees()), store.check()) == (2, ())
    return ""


def altered(file: Path, *statements: str) -> None:
    """Change a store by hand, past every check."""
    with closing(sqlite3.connect(file, isolation_level=None)) as other:
        other.execute("PRAGMA ignore_check_constraints = ON")
        other.execute("PRAGMA writable_schema = ON")
        for statement in statements:
            other.execute(statement)


ALTERED = {
    "a version that is no number": ("UPDATE meta SET value = 'x' WHERE key = 'version'",),
    "a version of digits that are no ASCII": ("UPDATE meta SET value = '²' WHERE key = 'version'",),
    "no version": ("DELETE FROM meta WHERE key = 'version'",),
    "an older version than its tables": ("UPDATE meta SET value = '1' WHERE key = 'version'",),
    "no word of what it is": ("DELETE FROM meta",),
    "text that is no UTF-8": ("UPDATE trainee SET name = CAST(x'ff41' AS TEXT)",),
    "a schema that is no SQL": ("UPDATE sqlite_master SET sql = 'CREATE TABLE oops' WHERE name = 'review'",),
    "a schema that is no UTF-8": (
        "UPDATE sqlite_master SET sql = CAST(x'4352ff' AS TEXT), name = CAST(x'ff' AS TEXT) WHERE name = 'review'",
    ),
    "a table that has gone": ("DELETE FROM sqlite_master WHERE name = 'trainee'",),
    "a day that is none": ("UPDATE memory SET due_day = '2026-45-45'",),
    "an instant that is none": ("UPDATE trainee SET added_at = 'yesterday'",),
    "an instant without its zone": ("UPDATE trainee SET added_at = '2026-03-02T12:00:00'",),
    "bytes for a name": ("UPDATE trainee SET name = x'00ff'",),
    "text for a number": ("UPDATE memory SET ease = 'high'",),
}


@pytest.mark.parametrize("how", ALTERED)
def test_a_store_that_makes_no_sense_is_told_and_can_be_restored_over(file: Path, backup: Path, how: str) -> None:
    altered(file, *ALTERED[how])
    told = look_at_everything(file)
    assert told, "nobody noticed"
    assert any(is_damage(error) for error in told), [error.message for error in told]
    assert all("store restore" in error.mend for error in told if is_damage(error))
    assert refusal_of_restore(file, backup) == ""
