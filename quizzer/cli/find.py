"""`quizzer find`: what the bank says about a word."""

from __future__ import annotations

import sys
from pathlib import Path

from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import open_shelf
from quizzer.cli.screen import look_of, put
from quizzer.pages.find import find_page
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import lay
from quizzer.workflows.finding import find


def find_words(words: str, bank: Path | None, plain: bool) -> int:
    """Print what holds the words; exit code 1 where nothing does."""
    found = find(open_shelf(bank), words)
    canvas = Canvas(look_of(sys.stdout, plain))
    lay(canvas, find_page(found))
    put(canvas)
    return FINE if found.entries or found.terms or found.topics or found.mistakes else FINDINGS
