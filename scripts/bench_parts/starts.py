"""Whole processes: showing a question and starting a session, against interpreters that only open the libraries."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

ROUNDS = 15
SHOW, STUDY, MEMORY_MB, CHECK_SECONDS = 1.6, 1.4, 120.0, 10.0
CHECKOUT = Path(__file__).resolve().parent.parent.parent
ENTRY = "testing/ring/cross-line-and-protective#5"
MAIN = "from quizzer.cli import main; main()"


def measure() -> list[tuple[str, float, float]]:
    """The two ratios of start-up."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        store = str(Path(folder) / "s.db")
        study = ["-c", MAIN, "study", "--store", store]
        _run(study)  # makes the store, and the compiled files
        opened = f"import typer, rich, sqlmodel, sqlite3; sqlite3.connect({store!r}).execute('select * from trainee')"  # noqa: S608  a path of our own making
        return [
            ("show, a whole process", _ratio(["-c", MAIN, "show", ENTRY], ["-c", "import typer, rich, tomllib"]), SHOW),
            ("study to its first question", _ratio(study, ["-c", opened]), STUDY),
        ]


def session_memory() -> float:
    """Megabytes of a session of two hundred answers, at its greatest."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        command = ["-c", MAIN, "study", "--count", "200", "--new", "200", "--store", str(Path(folder) / "s.db")]
        _run(command, typed="A1\n5\n\n" * 600)
    # Linux counts in kilobytes, macOS in bytes.
    scale = 1e6 if sys.platform == "darwin" else 1e3
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / scale


def check_seconds() -> float:
    """Seconds of a check of the whole shipped bank."""
    start = time.perf_counter()
    _run(["-c", MAIN, "bank", "check"])
    return time.perf_counter() - start


def _ratio(one: list[str], other: list[str]) -> float:
    """Median times of two commands, run turn by turn so that a busy machine is busy for both."""
    pairs = [(_seconds(one), _seconds(other)) for _ in range(ROUNDS)]
    return median(mine for mine, _ in pairs) / median(theirs for _, theirs in pairs)


def _seconds(command: list[str]) -> float:
    start = time.perf_counter()
    _run(command)
    return time.perf_counter() - start


def _run(command: list[str], typed: str = "") -> None:
    # Without compiled files every start would compile the program anew; nobody's start is like that.
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    env["PYTHONPATH"] = str(CHECKOUT)
    subprocess.run([sys.executable, *command], input=typed.encode(), stdout=subprocess.DEVNULL, check=False, env=env)
