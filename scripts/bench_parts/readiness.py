"""Weak topics and readiness over a million answers of three years, against a plain SQL aggregate of the same rows."""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.store import open_store
from quizzer.workflows.forecast.readiness import ready_for, ready_group
from quizzer.workflows.forecast.weakness import weak_for, weak_group
from quizzer.workflows.world import World
from scripts.bench_parts import histories
from scripts.bench_parts.promise import Promise, Stopped, seconds

PEOPLE, ANSWERS, DAYS = 200, 5_000, 3 * 365
NOW = datetime(2026, 11, 25, 7, tzinfo=UTC)
ALL_LIMIT = 5.0  # one person: an aggregate of everybody's answers too, because the others teach how people forget
_ALL = "SELECT trainee, topic, count(*), sum(was_right), max(day) FROM review GROUP BY trainee, topic"


def measure() -> Iterator[Promise]:
    """One person, and a group of two hundred."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        path = Path(folder) / "million.db"
        histories.build(path, PEOPLE, ANSWERS, DAYS, NOW)
        with open_store(str(path)) as store, closing(sqlite3.connect(path)) as bare:
            yield from _lines(World(store, Shelf(shipped()), lambda: NOW, lambda: 1, lambda: "x"), bare)


def _lines(world: World, bare: sqlite3.Connection) -> Iterator[Promise]:
    plan, people = blueprint(world.shelf, "wiring-regulations"), world.store.trainees()
    one, exam = people[7], (NOW + timedelta(days=42)).date()
    plain = _best(lambda: len(bare.execute(_ALL).fetchall()))
    for name, ours in (
        ("weak, one person of a million answers", lambda: weak_for(world, one, plan, exam).answers),
        ("ready, one person of a million answers", lambda: ready_for(world, one, plan, exam).answers),
        ("weak, a group of 200", lambda: len(list(weak_group(world, people, plan, exam)))),
        ("ready, a group of 200", lambda: len(list(ready_group(world, people, plan, exam)))),
    ):
        yield Promise(name, _best(ours) / plain, "times a plain SQL aggregate of all answers", ALL_LIMIT)


def _best(act: Callable[[], int]) -> float:
    """Seconds, the best of three, so that another program's turn does not count. Raises Stopped for no results."""
    if not act():
        raise Stopped("there is nothing in what was asked for")
    return min(seconds(act) for _ in range(3))
