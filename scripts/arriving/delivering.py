"""The side of the phones: deliver what waits until the word on it has come, whatever happens to the server."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from random import Random
from typing import Any

from quizzer.store import open_store
from scripts.arriving.simulated import Action

CHECKOUT = Path(__file__).resolve().parents[2]
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(CHECKOUT)}


class Deliverer:
    """Delivers actions one by one to a worker, and kills it so many times on the way, at any moment."""

    def __init__(self, store: Path, kills: int, dice: Random) -> None:
        self.store, self.kills, self.dice = store, kills, dice
        self.killed = self.delivered = 0
        self.word: dict[str, str] = {}

    def deliver(self, actions: Sequence[Action]) -> None:
        """Every action until its word has come."""
        deadly = set(self.dice.sample(range(len(actions)), min(self.kills, len(actions))))
        with self._worker() as worker:
            for at, action in enumerate(actions):
                if at in deadly:
                    worker.said(action, kill_after=self.dice.random() * 0.08)
                    self.killed += 1
                word = worker.said(action)
                self.delivered += 1
                self.word |= dict.fromkeys(word["accepted"], "accepted") | dict.fromkeys(word["rejected"], "rejected")

    @contextmanager
    def _worker(self) -> Iterator[Worker]:
        worker = Worker(self.store)
        try:
            yield worker
        finally:
            worker.end()


class Worker:
    """A worker that is started again when it is gone."""

    def __init__(self, store: Path) -> None:
        self.store = store
        self.process: subprocess.Popen[str] | None = None

    def said(self, action: Action, kill_after: float | None = None) -> dict[str, Any]:
        """The word on an action; none from a worker that is killed on it, in its work or behind it."""
        if self.process is None:
            command = [sys.executable, "-P", "-m", "scripts.arriving.worker", str(self.store)]
            pipe = subprocess.PIPE
            self.process = subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True, cwd=CHECKOUT, env=ENVIRONMENT)
        said = {"now": action.at.isoformat(), **action._asdict()} | {"at": ""}
        if self.process.stdin is None or self.process.stdout is None:
            raise RuntimeError("no pipes")
        self.process.stdin.write(json.dumps(said) + "\n")
        self.process.stdin.flush()
        if kill_after is not None:
            time.sleep(kill_after)
            self.end()
            return {"accepted": [], "rejected": []}
        line = self.process.stdout.readline()
        if not line:
            raise RuntimeError(f"the worker ended by itself with {self.process.wait()}")
        return dict(json.loads(line))

    def end(self) -> None:
        """Kill it, if it runs."""
        if self.process is not None:
            self.process.kill()
            self.process.communicate()
            self.process = None


def held(store: Path) -> tuple[dict[str, tuple[object, ...]], dict[tuple[str, str], tuple[object, ...]], list[str]]:
    """Reviews by id, memories by person and entry, and what the store finds wrong with itself."""
    with open_store(str(store)) as opened:
        reviews, memories = {}, {}
        for person in opened.trainees():
            for review in opened.reviews(person.id):
                reviews[review.id] = tuple(review)
            for one in opened.standings(person.id):
                memories[person.id, one.entry] = (one.topic, *one.memory)
        return reviews, memories, [*opened.check()]
