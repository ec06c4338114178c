"""The rows of a table that cannot be taken."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from quizzer.cli.screen import look_of, put
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.people.csv_rows import BadRow

SHOWN = 200  # bad rows: whoever gets more has another kind of file


def show_bad(path: Path, bad: Sequence[BadRow]) -> None:
    """Every bad row with its line and reason, on standard error, and that nothing was done."""
    page = Canvas(look_of(sys.stderr))
    for row in bad[:SHOWN]:
        page.text(f"{path.name}:{row.line}: {row.why}", hang=2)
    if len(bad) > SHOWN:
        page.text(f"… and {len(bad) - SHOWN:,} more.")
    count = "1 row is" if len(bad) == 1 else f"{len(bad):,} rows are"
    page.text(f"{count} bad, so nothing was taken from the file. Mend and try again.", style="bold")
    put(page, sys.stderr)
