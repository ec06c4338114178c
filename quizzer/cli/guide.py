"""`quizzer guide`: the guides inside the program."""

from __future__ import annotations

import sys

from quizzer.cli.screen import look_of, put
from quizzer.pages.guide import guides_page
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import lay
from quizzer.workflows.guides import GUIDES, guide


def show_guide(name: str | None, plain: bool) -> None:
    """Print a guide, or which there are. Raises NotFound for one that there is not."""
    canvas = Canvas(look_of(sys.stdout, plain))
    lay(canvas, guides_page(GUIDES) if name is None else guide(name))
    put(canvas)
