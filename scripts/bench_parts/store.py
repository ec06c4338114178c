"""The store with a million reviews against the same work done by hand with sqlite3, at the same durability."""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from itertools import count, islice
from pathlib import Path
from random import Random

from quizzer.schedule import Confidence, Memory, Review
from quizzer.store import Store, open_store
from scripts.bench_parts.histories import ASKED
from scripts.bench_parts.promise import Promise, Stopped, against, seconds

TRAINEES, ENTRIES, ROUNDS = 250, 400, 10  # a million reviews, a hundred thousand memories
TODAY = date(2026, 3, 2)
NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)
LIMIT = 2.5
BY_HAND = "times sqlite3 by hand"

_REVIEW = """INSERT INTO review (id, trainee, entry, topic, seed, digest, asked, reply, was_right, was_rounded, slip,
    confidence, quality, was_drill, answered_at, day, seconds) VALUES
    (:id, :trainee, :entry, :topic, :seed, :digest, :asked, :reply, :right, 0, NULL,
    'certain', :quality, 0, :at, :day, 40) ON CONFLICT DO NOTHING"""
_MEMORY = """INSERT INTO memory (trainee, entry, topic, ease, repetition, interval_days, last_day, due_day, owed,
    answered_at) VALUES
    (:trainee, :entry, :topic, :ease, :repetition, :interval, :last, :due, 0, :at)
    ON CONFLICT (trainee, entry) DO UPDATE SET topic = excluded.topic, ease = excluded.ease,
    repetition = excluded.repetition, interval_days = excluded.interval_days, last_day = excluded.last_day,
    due_day = excluded.due_day, owed = excluded.owed, answered_at = excluded.answered_at
    WHERE memory.answered_at <= excluded.answered_at"""
_DUE = """SELECT entry, topic, ease, repetition, interval_days, last_day, due_day, owed FROM memory
    WHERE trainee = ? AND due_day <= ? ORDER BY due_day, entry LIMIT 1"""


def measure() -> Iterator[Promise]:
    """The next due entry, and keeping an answer."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        path = Path(folder) / "million.db"
        _build(path)
        with open_store(str(path)) as store, closing(_bare(path)) as bare:
            yield Promise("next due entry, a million reviews", _next_due(store, bare), BY_HAND, LIMIT)
            yield Promise("recording an answer, a million reviews", _recording(store, bare), BY_HAND, LIMIT)


def _build(path: Path) -> None:
    """A store that has seen a million answers, filled in bulk."""
    open_store(str(path)).close()
    with closing(_bare(path)) as bare:
        bare.execute("PRAGMA synchronous = OFF")
        bare.execute("BEGIN")
        people = ((f"t{t:03}", f"Trainee {t}", f"trainee {t}", None, _at(NOON)) for t in range(TRAINEES))
        bare.executemany("INSERT INTO trainee (id, name, name_key, exam_day, added_at) VALUES (?, ?, ?, ?, ?)", people)
        bare.executemany(_REVIEW, _reviews())
        bare.executemany(_MEMORY, islice(_reviews(), (ROUNDS - 1) * TRAINEES * ENTRIES, None))
        bare.execute("COMMIT")
        bare.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _reviews() -> Iterator[dict[str, object]]:
    """Ten rounds through every entry of every trainee, in the order in which they were answered."""
    dice = Random("a million reviews")
    for round_ in range(ROUNDS):
        last = TODAY - timedelta(days=2 * (ROUNDS - round_))
        for n in range(TRAINEES * ENTRIES):
            trainee, entry = n % TRAINEES, n // TRAINEES
            yield {
                **_answer(f"{dice.getrandbits(80):020x}", f"t{trainee:03}", _entry(entry)),
                "at": _at(NOON - timedelta(days=2 * (ROUNDS - round_), seconds=-n % 40_000)),
                "day": last.isoformat(),
                "last": last.isoformat(),
                "due": (last + timedelta(days=dice.randrange(1, 60))).isoformat(),
            }


def _answer(key: str, trainee: str, entry: str) -> dict[str, object]:
    """What one recording binds, the same values on both sides."""
    return {
        "id": key,
        "trainee": trainee,
        "entry": entry,
        "topic": entry.split("/", maxsplit=1)[0],
        "seed": 7,
        "digest": "0123456789abcdef",
        "asked": ASKED,
        "reply": "B",
        "right": 1,
        "quality": 5,
        "day": TODAY.isoformat(),
        "ease": 260,
        "repetition": 3,
        "interval": 16,
        "last": TODAY.isoformat(),
        "due": (TODAY + timedelta(days=16)).isoformat(),
        "at": _at(NOON),
    }


def _next_due(store: Store, bare: sqlite3.Connection) -> float:
    dice = Random("whose turn")
    turns = iter([f"t{dice.randrange(TRAINEES):03}" for _ in range(40_000)])

    def ours() -> None:
        if not store.due(next(turns), TODAY, 1):
            raise Stopped("nothing was due")

    def theirs() -> None:
        if not bare.execute(_DUE, (next(turns), TODAY.isoformat())).fetchall():
            raise Stopped("nothing was due")

    return against(lambda: seconds(ours, 500), lambda: seconds(theirs, 500), 30)


def _recording(store: Store, bare: sqlite3.Connection) -> float:
    dice, keys = Random("which entry"), count()

    def which() -> tuple[str, str, str]:
        return f"new-{next(keys)}", f"t{dice.randrange(TRAINEES):03}", _entry(dice.randrange(ENTRIES))

    memory = Memory(260, 3, 16, TODAY, TODAY + timedelta(days=16))

    def ours() -> None:
        key, trainee, entry = which()
        sure, topic = Confidence.CERTAIN, entry.split("/", maxsplit=1)[0]
        review = Review(
            key,
            trainee,
            entry,
            topic,
            7,
            "0123456789abcdef",
            ASKED,
            "B",
            True,
            False,
            None,
            sure,
            5,
            False,
            NOON,
            TODAY,
            40,
        )
        if not store.record(review, memory):
            raise Stopped("an answer was not kept")

    def theirs() -> None:
        values = _answer(*which())
        bare.execute("BEGIN IMMEDIATE")
        bare.execute(_REVIEW, values)
        bare.execute(_MEMORY, values)
        bare.execute("COMMIT")

    return against(lambda: seconds(ours, 10), lambda: seconds(theirs, 10), 60)


def _bare(path: Path) -> sqlite3.Connection:
    """A connection with the settings the store gives its own."""
    bare = sqlite3.connect(path, isolation_level=None)
    for setting in ("foreign_keys = ON", "synchronous = FULL", "secure_delete = ON"):
        bare.execute(f"PRAGMA {setting}")
    return bare


def _entry(n: int) -> str:
    return f"topic{n % 13:02}/part{n % 5}/entry-{n:03}"


def _at(when: datetime) -> str:
    return when.replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"
