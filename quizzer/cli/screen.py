"""The screen of this process: how a page is drawn on it, and putting one there."""

from __future__ import annotations

import os
import shutil
import sys
from typing import TextIO

from quizzer.blocks.page import Page
from quizzer.characters import STEERING
from quizzer.cli.started import as_started, program
from quizzer.render.terminal.canvas import NARROWEST, WIDEST, Canvas, Look
from quizzer.render.terminal.laying import lay


def look_of(stream: TextIO, plain: bool = False) -> Look:
    """The look that suits a stream.

    Plain when asked for, when NO_COLOR is set, for a dumb terminal, or when the stream cannot write an ohm sign;
    colour only on a terminal.
    """
    asked = plain or bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb"
    spell = asked or not _can_write(stream, "Ω²√×─“")
    columns = shutil.get_terminal_size((WIDEST, 24)).columns
    width = min(WIDEST, max(NARROWEST, columns))
    return Look(width, colour=stream.isatty() and not spell, plain=spell, program=program())


def put(page: Canvas, stream: TextIO | None = None) -> None:
    """Write a page to standard output (or another stream)."""
    stream = stream or sys.stdout
    stream.write(f"{page}\n")
    stream.flush()


def put_page(page: Page, plain: bool = False) -> None:
    """Lay a page out and write it to standard output."""
    canvas = Canvas(look_of(sys.stdout, plain))
    lay(canvas, page)
    put(canvas)


def tell(words: str) -> None:
    """Write a sentence or two to standard output."""
    page = Canvas(look_of(sys.stdout))
    page.text(as_started(words))
    put(page)


def progress(what: str, done: int, of: int) -> None:
    """Tell on a terminal how far a long piece of work is, in one line that is written over."""
    if sys.stderr.isatty():
        sys.stderr.write(f"\r{what} {done:,} of {of:,} {'' if done < of else chr(10)}")
        sys.stderr.flush()


def put_json(value: object) -> None:
    """Write a value as JSON, with escapes for what would steer a terminal."""
    sys.stdout.write(f"{as_json(value)}\n")
    sys.stdout.flush()


def as_json(value: object) -> str:
    """The value as JSON that may be shown on a terminal."""
    import json  # only what prints JSON needs it

    text = json.dumps(value, ensure_ascii=False, indent=2, default=str)
    return STEERING.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def _can_write(stream: TextIO, text: str) -> bool:
    try:
        text.encode(stream.encoding or "ascii")
    except (UnicodeError, LookupError):
        return False
    return True
