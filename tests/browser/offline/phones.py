"""A real server that is started, stopped and killed as a person's would be."""

from __future__ import annotations

import os
import re
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

from tests.web.serving import free_port

CHECKOUT = Path(__file__).parents[3]
PATIENCE = 60.0  # seconds: the machine may be busy with other tests


class Server:
    """`quizzer web` on a port and a store of its own; it may be stopped, killed and started again otherwise."""

    def __init__(self, bank: Path, store: Path, trainee: str | None = None) -> None:
        self.bank, self.store, self.trainee, self.port = bank, store, trainee, free_port()
        self.process: subprocess.Popen[str] | None = None
        self.link = ""

    @property
    def address(self) -> str:
        """Where it answers."""
        return f"http://127.0.0.1:{self.port}"

    def start(self, *differences: str) -> None:
        """Start it, with what `serving.py` does otherwise; there once its link is printed."""
        command = [sys.executable, "-P", "-m", "tests.browser.offline.serving", ",".join(differences)]
        command += ["web", "--no-open", "--port", str(self.port), "--bank", str(self.bank), "--store", str(self.store)]
        command += ["--trainee", self.trainee] if self.trainee else []
        self.process = subprocess.Popen(
            command,
            cwd=CHECKOUT,
            env={**os.environ, "PYTHONPATH": str(CHECKOUT), "COLUMNS": "200"},
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        said = ""
        assert self.process.stdout is not None
        while not (found := re.search(r"http\S+/enter\S+", said)):
            line = self.process.stdout.readline()
            assert line, f"the server ended: {said}"
            said += line
        self.link = found[0]

    def stop(self) -> None:
        """End it in good order, if it runs."""
        self._end("terminate")

    def kill(self) -> None:
        """End it at once."""
        self._end("kill")

    def _end(self, how: str) -> None:
        if self.process is not None:
            getattr(self.process, how)()
            self.process.wait(PATIENCE)
            assert self.process.stdout is not None
            self.process.stdout.close()
            self.process = None

    def ended(self) -> int:
        """Wait until it has ended by itself; its code."""
        assert self.process is not None
        code = self.process.wait(PATIENCE)
        self._end("kill")
        return code

    def rows(self, columns: str = "id") -> list[tuple[object, ...]]:
        """These columns of all reviews that are kept, in the order they came."""
        return self.asked(f"SELECT {columns} FROM review ORDER BY rowid")  # noqa: S608

    def asked(self, statement: str) -> list[tuple[object, ...]]:
        """What the store's file says, by a connection of its own."""
        connection = sqlite3.connect(self.store, timeout=PATIENCE)
        try:
            return connection.execute(statement).fetchall()
        finally:
            connection.close()

    def wait_for(self, statement: str, many: int) -> list[tuple[object, ...]]:
        """The rows, once there are so many."""
        until = time.monotonic() + PATIENCE
        while len(found := self.asked(statement)) < many and time.monotonic() < until:
            time.sleep(0.1)
        assert len(found) == many
        return found

    def wait_for_rows(self, many: int) -> list[tuple[object, ...]]:
        """The ids of all reviews, once there are so many."""
        return self.wait_for("SELECT id FROM review", many)
