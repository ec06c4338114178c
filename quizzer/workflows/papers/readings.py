"""What was read off scanned sheets, as a table that `paper mark` takes, and a person's decisions put into it."""

from __future__ import annotations

from quizzer.paper.record import Paper
from quizzer.render.csv.csvs import csv_bytes
from quizzer.workflows.papers.scanning import ScanRead, SheetRead


def readings_table(paper: Paper, scan: ScanRead) -> bytes:
    """A row a sheet and a column a question: a letter, `-` for none, `?` where a person must look, with what to see."""
    questions = max(len(form.items) for form in paper.forms)
    heads = ["seat", "name", "form", *map(str, range(1, questions + 1)), "look at"]
    return csv_bytes(heads, [_row(sheet, questions) for sheet in scan.sheets])


def _row(sheet: SheetRead, questions: int) -> list[object]:
    look = "; ".join(f"{doubt.question}: {doubt.why} ({doubt.where})" for doubt in sheet.doubts)
    letters = [*sheet.answers, *[""] * (questions - len(sheet.answers))]
    return [sheet.seat or "", sheet.name, sheet.form.serial, *letters, look]


def decided(sheet: SheetRead, question: int, letter: str) -> SheetRead:
    """The sheet with a person's decision on a question in place of its doubt."""
    answers = sheet.answers[: question - 1] + letter + sheet.answers[question:]
    doubts = tuple(doubt for doubt in sheet.doubts if doubt.question != question)
    return sheet._replace(answers=answers, doubts=doubts)


def named(sheet: SheetRead, name: str) -> SheetRead:
    """The sheet with the name that a person has read on it."""
    return sheet._replace(name=name)
