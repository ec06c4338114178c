"""What was read off scanned answer sheets, in words."""

from __future__ import annotations

from pathlib import Path

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Paragraph, Points, do
from quizzer.blocks.words import count
from quizzer.paper.record import Paper
from quizzer.workflows.papers.scanning import Doubt, ScanRead, SheetRead


def scan_page(paper: Paper, scan: ScanRead, table: Path) -> Page:
    """Sheets read, pages that were not, what is left to a person, and what to do next."""
    title = f"Scanned: {paper.title}"
    doubts = [doubt_words(sheet, doubt) for sheet in scan.sheets for doubt in sheet.doubts]
    nameless = [f"{sheet.where}: form {sheet.form.serial}, whose?" for sheet in scan.sheets if not sheet.name]
    blocks: list[Block] = []
    for told, points in (
        ("Not read:", scan.refused),
        ("To be named, in the column name:", nameless),
        ("To be decided, in the table where it has a question mark:", doubts),
        ("No sheet of:", scan.missing),
    ):
        blocks += [Paragraph(told), Points(list(points))] if points else []
    blocks += [Paragraph(note) for note in scan.notes]
    if not scan.sheets:
        return Page(title, [*blocks, Paragraph("Nothing was written.")], "no sheet")
    answers = sum(len(sheet.answers) for sheet in scan.sheets)
    read = f"{count(len(scan.sheets), 'sheet')} with {answers} answers in {table}, {len(doubts)} of them open. "
    marking = do("paper mark", paper.id, answers=str(table))
    return Page(title, [*blocks, Paragraph((read, marking, " marks them once nothing is open."))], "")


def doubt_words(sheet: SheetRead, doubt: Doubt) -> str:
    """What a person must decide, and where to look."""
    return f"{sheet.name or 'form ' + sheet.form.serial}, question {doubt.question}: {doubt.why} ({doubt.where})"
