"""The check of the whole shipped bank, against a bare parse of the same files."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from statistics import median

from quizzer.bankfiles.shelf import shipped
from scripts.bench_parts.processes import run
from scripts.bench_parts.promise import Promise, Stopped, seconds

ROUNDS, LIMIT = 5, 60.0


def measure() -> Iterator[Promise]:
    """`bank check`, a whole process: each entry is drawn, worked, bent and read by every rule."""
    taken = run("bank", "check").seconds
    yield Promise("check of the shipped bank", taken / _parsing(), "times a parse of the same files", LIMIT)


def _parsing() -> float:
    files = [path.read_text(encoding="utf-8") for path in shipped().rglob("*.toml")]
    if not files:
        raise Stopped("the shipped bank has no files")
    return median(seconds(lambda: [tomllib.loads(text) for text in files]) for _ in range(ROUNDS))
