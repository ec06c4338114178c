"""The rows of a table that cannot be taken."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from quizzer.cli.screen import look_of, put
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.people.table_rows import BadRow

SHOWN = 200  # bad rows: whoever gets more has another kind of file
ALIKE = 3  # rows with one mend that are told one by one; more of them are told in a line


def show_bad(path: Path, bad: Sequence[BadRow]) -> None:
    """Every bad row with its line and reason, on standard error, and that nothing was done."""
    page = Canvas(look_of(sys.stderr))
    told = list(_told(bad))
    for line, why in told[:SHOWN]:
        page.text(f"{path.name}:{line}: {why}", hang=2)
    if len(told) > SHOWN:
        page.text(f"… and {len(told) - SHOWN:,} more.")
    rows = "1 row is" if len(bad) == 1 else f"{len(bad):,} rows are"
    page.text(f"{rows} bad, so nothing was taken from the file. Mend and try again.", style="bold")
    put(page, sys.stderr)


def _told(bad: Sequence[BadRow]) -> Iterator[tuple[int, str]]:
    """Line and reason of each row; of many that are alike the first stands for all."""
    lines: dict[str, list[int]] = {}
    for row in bad:
        lines.setdefault(row.alike, []).append(row.line)
    for row in bad:
        those = lines[row.alike] if row.alike else []
        if len(those) <= ALIKE:
            yield row.line, row.why
        elif row.line == those[0]:
            yield row.line, f"{row.why}. Likewise {len(those) - 1:,} more: {_lines(those[1:])}."


def _lines(numbers: Sequence[int]) -> str:
    """Line numbers in runs: `lines 3 to 42, 44`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1] = [runs[-1][0], number]
        else:
            runs.append([number])
    shown = ", ".join(" to ".join(map(str, run)) for run in runs[:SHOWN])
    return f"lines {shown}" + (", …" if len(runs) > SHOWN else "")
