"""Disputes, and the entries still to be signed off."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from quizzer.blocks.page import Page
from quizzer.blocks.text import Gap, Paragraph, Points
from quizzer.workflows.bank.signing import Open


def disputes_page(told: Sequence[tuple[str, str, str, bool]]) -> Page:
    """Every dispute with its day, entry and reason, and whether the entry still stands as it was."""
    points = [
        f"{day}  {entry}{'' if standing else ' (changed since)'}: {reason}" for day, entry, reason, standing in told
    ]
    return Page("Disputes", [Points(points) if points else Paragraph("No disputes.")])


def unsigned_page(still: Sequence[Open], entries: int) -> Page:
    """The entries still to be signed off, with how far each was checked."""
    points = [f"{each.id}: {each.evidence}{', disputed' if each.disputed else ''}" for each in still]
    counts = Counter(each.evidence for each in still).most_common()
    open_ = f" Still open: {', '.join(f'{number} {kind}' for kind, number in counts)}." if counts else ""
    told = Paragraph(f"{entries - len(still)} of {entries} entries are signed off.{open_}", "key")
    return Page("Not signed off", [Points(points), Gap(), told])
