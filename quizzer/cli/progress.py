"""`quizzer progress`: what somebody has done so far, on the screen and as a file."""

from __future__ import annotations

from pathlib import Path

from quizzer.cli.opening import open_world
from quizzer.cli.save import check_ending, show
from quizzer.pages.progress import progress_page
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.study.starting import who


def show_progress(
    trainee: str | None, out: Path | None, bank: Path | None, store: str | None, plain: bool, now: str | None
) -> None:
    """Print the page of progress, and write it where a file is asked for."""
    check_ending(out)
    with open_world(bank, store, now) as world:
        found = progress(world, who(world, trainee))
    show(progress_page(found), out, found.today, plain=plain)
