"""Disputes, and the entries still to be signed off."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Gap, Paragraph, Points
from quizzer.editions import LATEST
from quizzer.workflows.bank.signing import Open
from quizzer.workflows.bank.worklist import WorklistPart

_BOX = "[  ]"  # for a pen


def disputes_page(told: Sequence[tuple[str, str, str, bool]]) -> Page:
    """Every dispute with its day, entry and reason, and whether the entry still stands as it was."""
    points = [
        f"{day}  {entry}{'' if standing else ' (changed since)'}: {reason}" for day, entry, reason, standing in told
    ]
    return Page("Disputes", [Points(points) if points else Paragraph("No disputes.")])


def unsigned_page(still: Sequence[Open], entries: int) -> Page:
    """The entries still to be signed off, with how far each was checked."""
    points = [f"{each.id}: {each.evidence}{', disputed' if each.disputed else ''}" for each in still]
    return Page("Not signed off", [Points(points), Gap(), _told(still, entries)])


def worklist_page(parts: Sequence[WorklistPart], entries: int) -> Page:
    """The entries still to be signed off in the order of the book, a line with a box for each."""
    heads = ("Done", "Place", "Entry", "So far")
    blocks: list[Block] = [_told([each for part in parts for _, each in part.rows], entries), Gap()]
    for part in parts:
        rows = [(_BOX, place.text, each.id, _so_far(each)) for place, each in part.rows]
        blocks.append(DataTable(part.title, heads, rows, whole=(0, 1, 3)))
    blocks.append(Paragraph(f"So far: where the entry comes from, and whether it still holds under {LATEST}."))
    return Page("To be signed off, by regulation", blocks)


def _so_far(one: Open) -> str:
    return f"{one.evidence}, {'disputed' if one.disputed else one.currency}"


def _told(still: Sequence[Open], entries: int) -> Paragraph:
    counts = Counter(each.evidence for each in still).most_common()
    open_ = f" Still open: {', '.join(f'{number} {kind}' for kind, number in counts)}." if counts else ""
    return Paragraph(f"{entries - len(still)} of {entries} entries are signed off.{open_}", "key")
