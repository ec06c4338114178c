"""What the bank says about a word."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Gap, Heading, Paragraph, Points, do
from quizzer.blocks.words import count
from quizzer.workflows.bank.finding import Found

_MOST = 12  # entries told; more are counted


def find_page(found: Found) -> Page:
    """Terms, sub-topics, entries and mistakes that hold the words; where nothing does, where else to look."""
    parts = (_terms(found), _topics(found), _entries(found), _mistakes(found))
    blocks = tuple(block for part in parts for block in part)
    if not blocks:
        nothing = "Nothing in the bank holds that. Try the beginning of a word, or one word alone; "
        blocks = (Paragraph((nothing, do("topics"), " shows the topics.")),)
    return Page(f"Found: {found.words}", blocks)


def _terms(found: Found) -> Iterator[Block]:
    for term, plain in found.terms:
        yield Paragraph(plain, lead=term)
    if found.terms:
        yield Gap()


def _topics(found: Found) -> Iterator[Block]:
    if found.topics:
        yield Heading("Sub-topics")
        points = [
            (f"{topic}, {count(entries, 'entry', 'entries')}: ", do("study", topic=topic))
            for topic, entries in found.topics
        ]
        yield Points(points)


def _entries(found: Found) -> Iterator[Block]:
    if not found.entries:
        return
    yield Heading(f"Entries ({len(found.entries)})")
    for one in found.entries[:_MOST]:
        yield Paragraph((do("show", one.entry),))
        if one.stem:
            yield Paragraph(one.stem)
        yield Paragraph(one.source, "aside", "Source")
        yield Gap()
    if (more := len(found.entries) - _MOST) > 0:
        yield Paragraph(f"{count(more, 'entry', 'entries')} more: add a word to narrow it.")


def _mistakes(found: Found) -> Iterator[Block]:
    if found.mistakes:
        yield Heading("Mistakes by name")
        yield Points([said for _, said in found.mistakes])
