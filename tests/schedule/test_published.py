"""The ten published-rule sequences, every column of every row."""

import tomllib
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from quizzer.schedule import Memory, next_memory

ROWS = tomllib.loads(Path(__file__).with_name("published.toml").read_text(encoding="utf-8"))["row"]
DAY_0 = date(2026, 3, 2)


def walked(qualities: list[int]) -> list[Memory]:
    """The memory after each answer, each given on its due day, the first on day 0."""
    memories: list[Memory] = []
    before, today = None, DAY_0
    for quality in qualities:
        before = next_memory(before, quality, today)
        memories.append(before)
        today = before.due
    return memories


def test_all_ten_sequences_are_here() -> None:
    assert [row["name"] for row in ROWS] == [f"S{n}" for n in range(1, 11)]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["name"])
def test_a_published_sequence(row: dict[str, Any]) -> None:
    memories = walked(row["quality"])
    got = {
        "ease": [m.ease for m in memories],
        "interval": [m.interval for m in memories],
        "due": [(m.due - DAY_0) // timedelta(days=1) for m in memories],
    }
    assert row["source"].startswith("Wozniak 1990")
    assert set(row) == {"name", "source", "quality", *got}, "a column nobody checks"
    for column, values in got.items():
        assert values == row[column], column
