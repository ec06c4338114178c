"""A page: its title and its blocks, some of them for one medium only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from quizzer.blocks.pictures import Picture
from quizzer.blocks.plots import Columns, Grid, Intervals
from quizzer.blocks.question import CautionNote, Choices, Working
from quizzer.blocks.text import DataTable, Gap, Heading, Listing, PageBreak, Paragraph, Points
from quizzer.values import NamedTuple

Medium = Literal["terminal", "paper", "web"]


class Only(NamedTuple):
    """Blocks for some media alone, because the others say the same in a way of their own."""

    media: tuple[Medium, ...]
    blocks: Sequence[Block]


Plot = Intervals | Columns | Grid
Shown = (
    Heading
    | Paragraph
    | Points
    | DataTable
    | Listing
    | Gap
    | PageBreak
    | CautionNote
    | Choices
    | Working
    | Picture
    | Plot
)
Block = Shown | Only


class Page(NamedTuple):
    """A page: its title, its blocks, and what stands beside the title."""

    title: str
    blocks: Sequence[Block]
    beside: str = ""


def shown(blocks: Sequence[Block], medium: Medium) -> Iterator[Shown]:
    """The blocks that a medium shows, in order."""
    for block in blocks:
        if not isinstance(block, Only):
            yield block
        elif medium in block.media:
            yield from shown(block.blocks, medium)
