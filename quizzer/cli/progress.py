"""`quizzer progress`: what somebody has done so far, on the screen and as a file."""

from __future__ import annotations

import sys
from pathlib import Path

from quizzer.cli.opening import open_world
from quizzer.cli.outlook_files import check_ending, write
from quizzer.cli.screen import look_of, put
from quizzer.pages.progress import progress_page
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import lay
from quizzer.workflows.progress import progress
from quizzer.workflows.starting import who


def show_progress(
    trainee: str | None, out: Path | None, bank: Path | None, store: str | None, plain: bool, now: str | None
) -> None:
    """Print the page of progress, and write it where a file is asked for."""
    check_ending(out)
    with open_world(bank, store, now) as world:
        found = progress(world, who(world, trainee))
    page = progress_page(found)
    canvas = Canvas(look_of(sys.stdout, plain))
    lay(canvas, page)
    if out:
        write(out, page, str(canvas), found.today)
        canvas.text(f"Written: {out}")
    put(canvas)
