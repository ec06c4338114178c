"""A store of people who have answered for a while, filled in bulk."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.store import open_store

ASKED = '{"stem": "' + "A 20 A radial runs 23 m in 2.5/1.5 mm2 flat cable. " * 5 + '"}'
_REVIEW = """INSERT INTO review
    (id, trainee, entry, topic, seed, digest, asked, reply, was_right, was_rounded, slip, confidence, quality,
    was_drill, answered_at, day, seconds)
    VALUES (?, ?, ?, ?, 7, '0123456789abcdef', ?, ?, ?, 0, ?, 'certain', ?, 0, ?, ?, 40)"""


def key(n: int) -> str:
    """The id of the n-th person."""
    return f"t{n:03}"


def name(n: int) -> str:
    """The name of the n-th person."""
    return f"Trainee {n:03}"


def build(path: Path, people: int, answers: int, days: int, now: datetime | None = None) -> None:
    """A store with so many answers of each of so many people, who are one group, over the days before `now`."""
    now = now or datetime.now(UTC)
    with open_store(str(path)) as store:
        for n in range(people):
            store.add_trainee(key(n), name(n), now)
        store.groups.fill("everybody", (), [key(n) for n in range(people)], now)
    with closing(sqlite3.connect(path, isolation_level=None)) as bare:
        bare.execute("PRAGMA synchronous = OFF")
        bare.execute("BEGIN")
        bare.executemany(_REVIEW, _answers(people, answers, days, now))
        bare.execute("COMMIT")
        bare.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _answers(people: int, answers: int, days: int, now: datetime) -> Iterator[tuple[object, ...]]:
    """Everybody's answers, day by day as they would have come in."""
    dice = Random("a history")
    entries = [entry.id for entry in Shelf(shipped()).listed()]
    for at in range(answers):
        when = now - timedelta(days=days * (1 - at / answers), seconds=1)
        stamp = when.replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"
        for n in range(people):
            entry = entries[int(dice.random() * len(entries))]
            right = dice.random() < 0.7
            slip = None if right else "no-root-three"
            yield (
                f"{n:03}-{at:05}",
                key(n),
                entry,
                entry.split("/", maxsplit=1)[0],
                ASKED,
                "B",
                int(right),
                slip,
                5 if right else 1,
                stamp,
                when.date().isoformat(),
            )
