"""Running a command in this process, as from a shell with a pipe on each side."""

import gc
import io
import sys
from dataclasses import dataclass
from typing import TextIO

import pytest

from quizzer.cli import run


@dataclass(frozen=True)
class Ran:
    """What a command left: its exit code and both streams."""

    code: int
    out: str
    err: str


def ran(
    monkeypatch: pytest.MonkeyPatch,
    *args: str,
    typed: str = "",
    keys: TextIO | None = None,
    encoding: str = "utf-8",
    columns: int = 80,
) -> Ran:
    """Run `quizzer ARGS` with these lines typed, or what comes from `keys`, on a screen so wide."""
    out = io.TextIOWrapper(io.BytesIO(), encoding=encoding, write_through=True)
    err = io.TextIOWrapper(io.BytesIO(), encoding=encoding, write_through=True)
    monkeypatch.setattr(sys, "stdin", keys or io.StringIO(typed))
    monkeypatch.setattr(sys, "stdout", out)
    monkeypatch.setattr(sys, "stderr", err)
    for name in ("NO_COLOR", "TERM", "QUIZZER_STORE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("COLUMNS", str(columns))
    try:
        code = run(list(args))
    finally:  # this process goes on where a command's would have ended
        gc.unfreeze()
        gc.enable()
    return Ran(code, out.buffer.getvalue().decode(encoding), err.buffer.getvalue().decode(encoding))
