"""`quizzer paper entries`: the entries of a blueprint's papers, judged and as answered over all of them."""

from __future__ import annotations

from pathlib import Path

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.words import MOCK
from quizzer.cli.opening import Banks, open_world
from quizzer.cli.save import check_report_ending
from quizzer.cli.screen import put_page, tell
from quizzer.pages.pooled import pooled_page
from quizzer.workflows.papers.pooling import pooled_papers
from quizzer.workflows.papers.result_tables import entries_csv


def entries(blueprint: str, out: Path | None, bank: Banks, store: str | None, plain: bool) -> None:
    """Show them, or write them to a file."""
    check_report_ending(out)
    with open_world(bank, store) as world:
        found, today = pooled_papers(world, blueprint), world.now().date()
    if out is None:
        put_page(pooled_page(found), plain)
        return
    if out.suffix.lower() == ".csv":
        content = entries_csv(found)
    else:
        from quizzer.render.typst.report import report_pdf  # here, not above: the screen does not need it

        content = report_pdf(pooled_page(found), today, found.blueprint, MOCK)
    save_whole(out, content)
    tell(f"Written: {out}")
