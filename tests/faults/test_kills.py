"""Kill the program at every statement of the verbs that change most. The file shows the old state or the new one."""

import os
import shutil
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from quizzer.schedule import FoldRules, next_memory
from quizzer.store import Newcomer, Store, open_store
from quizzer.store.connection import plainly
from tests.stores import (
    CHANGE,
    JOINED,
    LATE,
    MARKED,
    NOON,
    PAPER,
    PARTED,
    TODAY,
    doubled,
    ended,
    held,
    held_in,
    in_child,
    opened,
    peopled,
    review,
    sitting,
)

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="the program that is killed is forked")

CHANGES: dict[str, Callable[[Store, Path], object]] = {
    "record": lambda store, _: store.record(review("new"), next_memory(None, 0, TODAY)),
    "receive": lambda store, _: store.receive("t1", LATE, FoldRules()),
    "record_scripts": lambda store, _: store.papers.record_scripts(PAPER.id, [Newcomer("t3", "Cara")], MARKED, NOON),
    "save_sitting": lambda store, _: store.papers.save_sitting(sitting("t1", answers="B--", submitted_at=NOON)),
    "fill_group": lambda store, _: store.groups.fill("Tuesday", [Newcomer("t3", "Cara")], ["t1", "t3"], NOON),
    "corrections.apply": lambda store, _: store.corrections.apply(CHANGE, FoldRules()),
    "corrections.merge": lambda store, _: store.corrections.merge(JOINED, "t9", FoldRules()),
    "corrections.unmerge": lambda store, _: store.corrections.unmerge(PARTED, (), FoldRules()),
    "erase_trainee": lambda store, _: store.erase_trainee("t1"),
    "restore": lambda store, folder: store.restore(folder / "other.bak", NOON),
}


class Deadly:
    """Runs statements, and kills its own process after the `at`-th one, which is before the next."""

    def __init__(self, at: int) -> None:
        self.left = at

    def __call__(self, cursor: Any, statement: str, values: Any) -> object:
        """One statement, perhaps the last."""
        self.left -= 1
        done = plainly(cursor, statement, values)
        if self.left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        return done


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a backup of another store."""
    with opened("memory", tmp_path) as other:
        other.add_trainee("t7", "Zoe", NOON)
        other.backup(tmp_path / "other.bak")
    return tmp_path


@pytest.mark.parametrize("verb", CHANGES)
def test_a_killed_change_happened_whole_or_not_at_all(verb: str, folder: Path) -> None:
    file = folder / "study.db"
    states = [made(file), changed(file, verb, folder)]
    kills = 0
    for n in range(1, 120):
        fresh(file)

        def change(n: int = n) -> None:
            with open_store(str(file)) as store:
                store._wire._execute = Deadly(n)
                CHANGES[verb](store, folder)

        if ended(in_child(change)) == 0:
            break
        kills += 1
        with open_store(str(file)) as store:
            assert {name: sorted(rows) for name, rows in held(store).items()} in states, f"statement {n}"
            assert store.check() == ()
    assert kills >= 3, "begin, at least one change, commit"


def made(file: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Make the store with two trainees, and a copy of it beside; what it holds."""
    with open_store(str(file)) as store:
        doubled(peopled(store))
    shutil.copyfile(file, file.with_name("made.db"))
    return held_in(file)


def fresh(file: Path) -> None:
    """Put the store back to what was made."""
    for path in file.parent.glob("study.db*"):
        path.unlink()
    shutil.copyfile(file.with_name("made.db"), file)


def changed(file: Path, verb: str, folder: Path) -> dict[str, list[tuple[Any, ...]]]:
    """What it holds after the change."""
    with open_store(str(file)) as store:
        CHANGES[verb](store, folder)
    return held_in(file)
