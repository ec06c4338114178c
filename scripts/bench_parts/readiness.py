"""Weak topics and readiness over a million answers of three years, against a plain SQL aggregate of the same rows."""

from __future__ import annotations

import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.store import open_store
from quizzer.workflows.readiness import ready_for, ready_group
from quizzer.workflows.weakness import weak_for, weak_group
from quizzer.workflows.world import World

PEOPLE, ANSWERS, DAYS = 200, 5_000, 3 * 365
NOW = datetime(2026, 11, 25, 7, tzinfo=UTC)
ONE_SECONDS, GROUP_SECONDS = 1.0, 5.0
ASKED = '{"stem": "' + "A 20 A radial runs 23 m in 2.5/1.5 mm2 flat cable. " * 5 + '"}'

_REVIEW = """INSERT INTO review VALUES (?, ?, ?, ?, 7, '0123456789abcdef', ?, ?, ?, 0, ?, 'certain', ?, 0, ?, ?, 40)"""
_ONE = "SELECT topic, count(*), sum(was_right), max(day) FROM review WHERE trainee = ? GROUP BY topic"
_ALL = "SELECT trainee, topic, count(*), sum(was_right), max(day) FROM review GROUP BY trainee, topic"


def measure() -> list[tuple[str, float, float, float]]:
    """What was asked, its seconds, how many times as long as the plain aggregate that is, and the most seconds."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        path = Path(folder) / "million.db"
        build(path)
        with open_store(str(path)) as store, closing(sqlite3.connect(path)) as bare:
            return list(_lines(World(store, Shelf(shipped()), lambda: NOW, lambda: 1, lambda: "x"), bare))


def _lines(world: World, bare: sqlite3.Connection) -> Iterator[tuple[str, float, float, float]]:
    plan, people = blueprint(world.shelf, "wiring-regulations"), world.store.trainees()
    one, exam = people[7], (NOW + timedelta(days=42)).date()
    for name, ours, theirs, most in (
        ("weak, one person", lambda: weak_for(world, one, plan, exam), (_ONE, (one.id,)), ONE_SECONDS),
        ("ready, one person", lambda: ready_for(world, one, plan, exam), (_ONE, (one.id,)), ONE_SECONDS),
        ("weak, a group of 200", lambda: list(weak_group(world, people, plan, exam)), (_ALL, ()), GROUP_SECONDS),
        ("ready, a group of 200", lambda: list(ready_group(world, people, plan, exam)), (_ALL, ()), GROUP_SECONDS),
    ):
        plain = _seconds(lambda query=theirs: bare.execute(*query).fetchall())
        seconds = _seconds(ours)
        yield name, seconds, seconds / plain, most


def _seconds(act: Callable[[], object]) -> float:
    """The best of three, so that another program's turn does not count."""
    found = []
    for _ in range(3):
        start = time.perf_counter()
        act()
        found.append(time.perf_counter() - start)
    return min(found)


def build(path: Path) -> None:
    """A store with a million answers of two hundred people, filled in bulk."""
    with open_store(str(path)) as store:
        for n in range(PEOPLE):
            store.add_trainee(_key(n), f"Trainee {n:03}", NOW)
        store.fill_group("everybody", (), [_key(n) for n in range(PEOPLE)], NOW)
    with closing(sqlite3.connect(path, isolation_level=None)) as bare:
        bare.execute("PRAGMA synchronous = OFF")
        bare.execute("BEGIN")
        bare.executemany(_REVIEW, _answers())
        bare.execute("COMMIT")
        bare.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _key(n: int) -> str:
    return f"t{n:03}"


def _answers() -> Iterator[tuple[object, ...]]:
    """Everybody's answers, day by day as they would have come in."""
    dice = Random("a million answers")
    entries = [entry.id for entry in Shelf(shipped()).listed()]
    for at in range(ANSWERS):
        when = NOW - timedelta(days=DAYS * (1 - at / ANSWERS), seconds=1)
        stamp = when.replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"
        for n in range(PEOPLE):
            entry = entries[int(dice.random() * len(entries))]
            right = dice.random() < 0.7
            slip = None if right else "no-root-three"
            yield (
                f"{n:03}-{at:05}", _key(n), entry, entry.split("/", maxsplit=1)[0], ASKED, "B", int(right), slip,
                5 if right else 1, stamp, when.date().isoformat(),
            )  # fmt: skip


if __name__ == "__main__":
    for name, seconds, ratio, most in measure():
        sys.stdout.write(f"{name}: {seconds:.2f} s (at most {most:g}), {ratio:.1f} times a plain SQL aggregate\n")
