"""`quizzer guide`: the guides inside the program."""

from __future__ import annotations

from quizzer.cli.screen import put_page
from quizzer.pages.guide import guides_page
from quizzer.workflows.bank.guides import GUIDES, guide


def show_guide(name: str | None, plain: bool) -> None:
    """Print a guide, or which there are. Raises NotFound for one that there is not."""
    put_page(guides_page(GUIDES) if name is None else guide(name), plain)
