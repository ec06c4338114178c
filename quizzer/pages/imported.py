"""What was taken of somebody's questions, what was not, and what the cards still need."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Gap, Heading, Paragraph, Points, do
from quizzer.blocks.words import count
from quizzer.errors import Issue
from quizzer.workflows.bank.importing import Imported


def imported_page(found: Imported) -> Page:
    """The cards taken with their items, everything left out with its reason, and what `bank check` finds, by card."""
    blocks: list[Block] = [Paragraph(_said(found), "key")]
    blocks += [Paragraph(note) for note in found.notes]
    if found.taken:
        blocks += [Gap(), DataTable("Taken", ("Card", "Item"), found.taken, whole=(0,))]
    if found.left:
        blocks += [Gap(), Heading("Left out"), Points([f"{each.item}: {each.why}" for each in found.left])]
    if found.issues:
        blocks += [Gap(), Heading("To be mended in the cards"), Points(_by_card(found.issues))]
        blocks += [
            Paragraph((do("explain"), " tells what the codes mean; ", do("bank check"), " looks again."), "aside")
        ]
    return Page("Import", blocks)


def _said(found: Imported) -> str:
    left = f"{count(len(found.left), 'thing')} left out."
    if found.path is None:
        return f"Nothing was taken, and no file was made. {left}"
    evidence = "Evidence: practice, until somebody has checked each card against its source."
    return f"{count(len(found.taken), 'question')} taken, into {found.path}. {left} {evidence}"


def _by_card(issues: Sequence[Issue]) -> list[str]:
    """A line for each kind of finding, with the lines of the file that it is about."""
    lines: dict[tuple[str, str], list[int]] = {}
    for issue in issues:
        lines.setdefault((issue.code, issue.mend), []).append(issue.place.line)
    return [
        f"{code}, line{'s' if len(found) > 1 else ''} {', '.join(map(str, found))}: {mend}"
        for (code, mend), found in lines.items()
    ]
