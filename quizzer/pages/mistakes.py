"""What waits to be mended: the entries, latest mistake first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Paragraph, Points, Words, do
from quizzer.blocks.words import count
from quizzer.schedule.progress import RIGHT_TO_MEND
from quizzer.workflows.study.mistaken import Waiting

_MOST = 30


def mistakes_page(name: str, found: Sequence[Waiting]) -> Page:
    """The entries with the mistake that was made in each; where there is none, that there is none."""
    return Page(f"Mistakes: {name}", [*_blocks(found)])


def _blocks(found: Sequence[Waiting]) -> Iterator[Block]:
    if not found:
        yield Paragraph(("No mistake is waiting. ", do("study"), " brings what is due."))
        return
    yield Paragraph((do("study", mistakes=True), f" asks all {count(len(found), 'entry', 'entries')} again."), "key")
    yield Paragraph(
        f"An entry goes from this list when it is right the next time; one that was wrong though certain, when it is "
        f"right {RIGHT_TO_MEND} times in a row."
    )
    more = [f"{count(len(found) - _MOST, 'entry', 'entries')} more"] if len(found) > _MOST else []
    yield Points([*map(_point, found[:_MOST]), *more])


def _point(one: Waiting) -> Words:
    shown = do("show", one.entry, solution=True)
    return (shown, f": {one.words}") if one.words else (shown,)
