"""A table as plain data for a template: how wide its columns want to be, and how many rows a first cell stands for."""

from __future__ import annotations

from typing import Any

from quizzer.blocks.text import DataTable, spans

NARROW, WIDE = 14, 60  # characters of a column that is not wrapped; beyond which a longer text wants no more width


def tabled(table: DataTable) -> dict[str, Any]:
    """The table with the shares of its columns (`widths`), and the rows of each first cell (`spans`)."""
    rows = [list(row) for row in table.rows]
    return {"kind": "table", **table._asdict(), "rows": rows, "widths": _widths(table), "spans": spans(table)}


def _widths(table: DataTable) -> list[int]:
    """The share of the width each column wants, by its longest text; 0 for columns that are as wide as they need."""
    longest = [max(map(len, column)) for column in zip(table.heads, *table.rows, strict=True)]
    kept = {*table.right, *(at for at in table.whole if longest[at] <= 2 * NARROW)}
    return [0 if at in kept or wide <= NARROW else min(wide, WIDE) for at, wide in enumerate(longest)]
