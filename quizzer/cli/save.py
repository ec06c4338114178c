"""Files of `weak`, `ready`, `plan` and `progress`: the plots, the page on paper or as text; endings of reports."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.page import Page, Plot, shown
from quizzer.blocks.words import DECIDES
from quizzer.cli.screen import look_of, put
from quizzer.cli.started import as_started
from quizzer.errors import UsageError
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import lay

ENDINGS = (".svg", ".pdf", ".txt")
_HEAD = "Study aid: an estimate, no promise"


def check_ending(path: Path | None) -> None:
    """Raises UsageError for a file of a kind that is not written here: before anything is worked out."""
    if path is not None and path.suffix.lower() not in ENDINGS:
        raise UsageError(
            f"--out {str(path)!r} is none of .svg, .pdf and .txt",
            mend="end the name in .svg (the plots), .pdf (plots and tables) or .txt (the page as shown)",
        )


def check_report_ending(path: Path | None) -> None:
    """Raises UsageError for a file that is no PDF and no CSV."""
    if path is not None and path.suffix.lower() not in {".pdf", ".csv"}:
        raise UsageError(f"--out {str(path)!r} is neither .pdf nor .csv", mend="end the name in .pdf or .csv")


def show(page: Page, out: Path | None, day: date, notes: str = "", *, plain: bool) -> None:
    """Write the file that was asked for, then show the page with its notes: a refusal comes alone."""
    canvas = Canvas(look_of(sys.stdout, plain))
    lay(canvas, page)
    if out:
        _write(out, page, str(canvas), day)
    for note in filter(None, (notes, f"Written: {out}" if out else "")):
        canvas.text(as_started(note))
    put(canvas)


def _write(path: Path, page: Page, text: str, day: date) -> None:
    """Write the plots alone, plots with tables, or the text, by the ending. Raises UsageError, or Refused."""
    match path.suffix.lower():
        case ".svg":
            content = _svg(page).encode()
        case ".pdf":
            from quizzer.render.typst.report import report_pdf  # here and below, not above: the screen needs neither

            content = report_pdf(page, day, day.isoformat(), _HEAD)
        case _:
            content = f"{text.rstrip()}\n".encode()
    save_whole(path, content)


def _svg(page: Page) -> str:
    from quizzer.render.svg.drawing import svg

    plots = [block for block in shown(page.blocks, "paper") if isinstance(block, Plot)]
    if not plots:
        raise UsageError(
            "there is nothing to draw: too few answers so far, or no days left", mend="name a .pdf or .txt file instead"
        )
    return svg(page.title, plots, DECIDES)
