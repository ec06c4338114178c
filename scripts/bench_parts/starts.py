"""Whole processes: showing a question and starting a session, against interpreters that only open the libraries."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

ROUNDS = 15
SHOW, STUDY, MEMORY_MB, CHECK_SECONDS = 1.6, 1.4, 120.0, 10.0
CHECKOUT = Path(__file__).resolve().parent.parent.parent
ENTRY = "testing/ring/cross-line-and-protective#5"
PROMPTS = ("Your answer, ", "Your answer a", "The letters", "How sure?", "Enter")
MAIN = "from quizzer.cli import main; main()"


def measure() -> list[tuple[str, float, float]]:
    """The two ratios of start-up."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        store = str(Path(folder) / "s.db")
        study = ["-c", MAIN, "study", "--store", store]
        _run(study)  # makes the store, and the compiled files
        opened = f"import typer, rich, sqlmodel, sqlite3; sqlite3.connect({store!r}).execute('select * from trainee')"  # noqa: S608  a path of our own making
        asks = "; print('How sure?', flush=True); input()"
        return [
            ("show, a whole process", _ratio(["-c", MAIN, "show", ENTRY], ["-c", "import typer, rich, tomllib"]), SHOW),
            ("study to its first question", _ratio(study, ["-c", opened + asks], _to_first_prompt), STUDY),
        ]


def session_memory() -> tuple[float, int]:
    """Megabytes of a session of two hundred answers, at its greatest, and how many were really given."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        command = ["-c", MAIN, "study", "--count", "200", "--new", "200", "--store", str(Path(folder) / "s.db")]
        given = 0
        with _started(command) as process:
            while prompt := _next_prompt(process):
                given += prompt.startswith("Enter")
                _type(process, _typed(prompt))
    # Linux counts in kilobytes, macOS in bytes.
    scale = 1e6 if sys.platform == "darwin" else 1e3
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / scale, given


def _typed(prompt: str) -> str:
    """Something that will do at any prompt of a session."""
    if prompt.startswith("The letters"):
        return "ABCDEFGHIJ"[: ord(prompt[len("The letters A to ")]) - ord("A") + 1]
    return {"Your answer, ": "A", "Your answer a": "5", "How sure?": "1", "Enter": ""}[prompt]


def check_seconds() -> float:
    """Seconds of a check of the whole shipped bank."""
    start = time.perf_counter()
    _run(["-c", MAIN, "bank", "check"])
    return time.perf_counter() - start


def _ratio(one: list[str], other: list[str], seconds: Callable[[list[str]], float] | None = None) -> float:
    """Median times of two commands, run turn by turn so that a busy machine is busy for both."""
    seconds = seconds or _seconds
    pairs = [(seconds(one), seconds(other)) for _ in range(ROUNDS)]
    return median(mine for mine, _ in pairs) / median(theirs for _, theirs in pairs)


def _seconds(command: list[str]) -> float:
    start = time.perf_counter()
    _run(command)
    return time.perf_counter() - start


def _to_first_prompt(command: list[str]) -> float:
    """Seconds until the command first asks for something; it is killed then."""
    start = time.perf_counter()
    with _started(command) as process:
        _next_prompt(process)
        taken = time.perf_counter() - start
        process.kill()
    return taken


def _started(command: list[str]) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, *command], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=_env()
    )


def _next_prompt(process: subprocess.Popen[bytes]) -> str:
    """The prompt that the process stops at, "" when it has ended."""
    screen = b""
    while more := os.read(process.stdout.fileno(), 65536):
        screen += more
        last = screen.decode(errors="replace").rstrip("\n").rpartition("\n")[2]
        for prompt in PROMPTS:
            if last.startswith(prompt):
                return last[:20] if prompt == "The letters" else prompt
    return ""


def _type(process: subprocess.Popen[bytes], line: str) -> None:
    process.stdin.write(f"{line}\n".encode())
    process.stdin.flush()


def _run(command: list[str]) -> None:
    subprocess.run([sys.executable, *command], input=b"", stdout=subprocess.DEVNULL, check=False, env=_env())


def _env() -> dict[str, str]:
    # Without compiled files every start would compile the program anew; nobody's start is like that.
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return {**env, "PYTHONPATH": str(CHECKOUT)}
