"""The bank at a glance, and the entries of a topic."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Gap, Paragraph, Points, do
from quizzer.blocks.words import EVIDENCE, count
from quizzer.editions import CURRENCIES, LATEST
from quizzer.workflows.bank.overview import CurrencyLine, EntryLine, TopicLine

_HOLDS = ("templates", "cards", "families", "stems", "circuits", "safety")
_CHECKED = tuple(EVIDENCE)


def topics_page(lines: Sequence[TopicLine], complaints: int) -> Page:
    """A line for each topic with their sum, what the columns mean, and whether anything is left out."""
    means = " ".join(f"{name}: {meaning}." for name, meaning in EVIDENCE.items())
    blocks: list[Block] = [
        _table("What it holds", _HOLDS, lines, [_holds(line) for line in lines]),
        Paragraph("stems: the cases of the families. safety: entries of the safety-critical set."),
        Gap(),
        _table("How far it was checked", _CHECKED, lines, [_checked(line) for line in lines]),
        Paragraph(means),
    ]
    if complaints:
        left_out = f"{count(complaints, 'complaint')}: some entries are left out; "
        blocks.append(Paragraph((left_out, do("bank check"), " lists them.")))
    return Page("The bank", blocks, count(len(lines), "topic"))


def currency_page(lines: Sequence[CurrencyLine]) -> Page:
    """A line for each topic with their sum: what still holds, as far as is known, and what the columns mean."""
    heads = ("Topic", *CURRENCIES, f"signed {LATEST}")
    figures = [(line.unaffected, line.changed, line.unknown, line.signed) for line in lines]
    rows = [[line.topic, *map(str, row)] for line, row in zip(lines, figures, strict=True)]
    total = ["all", *(str(sum(column)) for column in zip(*figures, strict=True))]
    means = (
        f"unaffected: the fact does not rest on the wiring rules, or public summaries say so twice over. "
        f"changed: such summaries name it. unknown: neither is known; silence included. "
        f"signed {LATEST}: a tutor has checked the entry against the book."
    )
    table = DataTable("", heads, [*rows, total], right=tuple(range(1, len(heads))), total=True)
    after = Paragraph((do("topics", unsigned=True, by_regulation=True), " lists what is to be checked."))
    return Page(f"What still holds under {LATEST}", [table, Paragraph(means), after])


def entries_page(found: Sequence[EntryLine]) -> Page:
    """The name of each entry, with what it is and how far it was checked."""
    lines = [f"{each.id}: {each.kind}, {each.evidence}{', safety' if each.safety_critical else ''}" for each in found]
    blocks = (Points(lines), Gap(), Paragraph((do("show", found[0].id), " shows one.")))
    return Page("Entries", blocks, count(len(found), "entry", "entries"))


def _table(
    title: str, heads: Sequence[str], lines: Sequence[TopicLine], figures: Sequence[tuple[int, ...]]
) -> DataTable:
    """The figures by topic, with their sums."""
    rows = [[line.topic, *map(str, row)] for line, row in zip(lines, figures, strict=True)]
    total = ["all", *(str(sum(column)) for column in zip(*figures, strict=True))]
    return DataTable(title, ("Topic", *heads), [*rows, total], right=tuple(range(1, len(heads) + 1)), total=True)


def _holds(line: TopicLine) -> tuple[int, ...]:
    return line.templates, line.cards, line.families, line.stems, line.circuits, line.safety_critical


def _checked(line: TopicLine) -> tuple[int, ...]:
    return line.published, line.memory, line.practice
