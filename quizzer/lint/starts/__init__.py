"""Filled-in starting files, which check clean; the pages of codes show their good lines.

The verdict template takes its row from the starting table, saved as banks/tables/sizes.toml.
"""

from __future__ import annotations

from pathlib import Path

KINDS = (
    "template",
    "verdict",
    "card",
    "action",
    "value",
    "order",
    "family",
    "order-family",
    "table",
    "blueprint",
    "diagnose",
)


def start(kind: str) -> str:
    """The text of the starting file of a kind."""
    return (Path(__file__).parent / f"{kind}.toml").read_text(encoding="utf-8")


def lines(kind: str, first: str, last: str = "") -> str:
    """The lines of a starting file from the one that begins with `first` to the one with `last`, or to the end."""
    text = start(kind)
    begin = text.index(f"\n{first}") + 1
    end = text.index("\n", text.index(f"\n{last}", begin - 1) + 1) if last else len(text) - 1
    return text[begin:end]
