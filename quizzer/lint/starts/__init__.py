"""Filled-in starting files, which check clean; the pages of codes show their good lines."""

from __future__ import annotations

from pathlib import Path

KINDS = ("template", "card", "order", "table")


def start(kind: str) -> str:
    """The text of the starting file of a kind."""
    return (Path(__file__).parent / f"{kind}.toml").read_text(encoding="utf-8")
