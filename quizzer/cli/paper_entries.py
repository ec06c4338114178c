"""`quizzer paper entries`: the entries of a blueprint's papers, judged and as answered over all of them."""

from __future__ import annotations

from quizzer.cli.opening import Banks, open_world
from quizzer.cli.screen import put_page
from quizzer.pages.pooled import pooled_page
from quizzer.workflows.papers.pooling import pooled_papers


def entries(blueprint: str, bank: Banks, store: str | None, plain: bool) -> None:
    """Show them."""
    with open_world(bank, store) as world:
        found = pooled_papers(world, blueprint)
    put_page(pooled_page(found), plain)
