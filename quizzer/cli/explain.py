"""`quizzer explain`: the page of a code of `bank check`."""

from __future__ import annotations

from quizzer.cli.screen import put_page
from quizzer.lint.catalogue import CATALOGUE, page_of
from quizzer.pages.code import code_page, codes_page


def explain(code: str | None) -> None:
    """Print the page of a code, or what codes there are. Raises NotFound for one that there is not."""
    put_page(codes_page(CATALOGUE.values()) if code is None else code_page(page_of(code)))
