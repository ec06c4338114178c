"""The program as a person starts it: whole processes, timed, and believed only when they did their work."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path
from typing import IO, NamedTuple

from scripts.bench_parts.promise import Stopped

CHECKOUT = Path(__file__).resolve().parent.parent.parent
PROGRAM = ("-P", "-m", "quizzer")
PROMPTS = ("Your answer, ", "Your answer a", "The letters", "How sure?", "Enter")


class Ended(NamedTuple):
    """A process that did its work: its seconds, and the megabytes it took at its greatest."""

    seconds: float
    megabytes: float


def run(*words: str, cwd: Path = CHECKOUT, store: Path | None = None) -> Ended:
    """Run the program to its end. Raises Stopped when it fails."""
    return python(*PROGRAM, *words, cwd=cwd, store=store)


def python(*words: str, cwd: Path = CHECKOUT, store: Path | None = None) -> Ended:
    """Run an interpreter to its end. Raises Stopped when it fails."""
    begun = time.perf_counter()
    with started(words, cwd, store) as process:
        _pipe(process.stdin).close()
        _pipe(process.stdout).read()
        said = _pipe(process.stderr).read()
        megabytes = ended(process)
        took = time.perf_counter() - begun
    if process.returncode:
        raise Stopped(f"`{' '.join(words)}` ended with code {process.returncode}: {_last(said)}")
    return Ended(took, megabytes)


def ended(process: subprocess.Popen[bytes]) -> float:
    """The megabytes the process took at its greatest, once it has ended."""
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    # Linux counts in kilobytes, macOS in bytes.
    return usage.ru_maxrss / (1e6 if sys.platform == "darwin" else 1e3)


def to_first_prompt(*words: str, store: Path) -> float:
    """Seconds until the program first asks something; it is ended then. Raises Stopped when it never asks."""
    begun = time.perf_counter()
    with started((*PROGRAM, *words), CHECKOUT, store) as process:
        asked = next_prompt(process)
        took = time.perf_counter() - begun
        process.kill()
        said = _pipe(process.stderr).read()
    if not asked:
        raise Stopped(f"`{' '.join(words)}` ended without a question: {_last(said)}")
    return took


def started(words: tuple[str, ...], cwd: Path, store: Path | None) -> subprocess.Popen[bytes]:
    """An interpreter with these words."""
    # Without compiled files every start would compile the program anew; nobody's start is like that.
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    env |= {"PYTHONPATH": str(CHECKOUT)} | ({"QUIZZER_STORE": str(store)} if store else {})
    pipe = subprocess.PIPE
    return subprocess.Popen([sys.executable, *words], stdin=pipe, stdout=pipe, stderr=pipe, cwd=cwd, env=env)


def next_prompt(process: subprocess.Popen[bytes]) -> str:
    """The prompt that the process stops at, "" when it has ended."""
    screen = b""
    while more := os.read(_pipe(process.stdout).fileno(), 65536):
        screen += more
        last = screen.decode(errors="replace").rstrip("\n").rpartition("\n")[2]
        for prompt in PROMPTS:
            if last.startswith(prompt):
                return last[:20] if prompt == "The letters" else prompt
    return ""


def typed(process: subprocess.Popen[bytes], line: str) -> None:
    """Type a line."""
    _pipe(process.stdin).write(f"{line}\n".encode())
    _pipe(process.stdin).flush()


def _last(said: bytes) -> str:
    return said.decode(errors="replace").strip()[-300:]


def _pipe(stream: IO[bytes] | None) -> IO[bytes]:
    if stream is None:
        raise Stopped("the process has no such stream")
    return stream
