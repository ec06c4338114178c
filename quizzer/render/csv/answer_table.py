"""The table a tutor fills in: one row a person, with the form and one letter a question."""

from __future__ import annotations

from quizzer.paper.record import Paper
from quizzer.render.csv.csvs import csv_bytes

HEADS = ("name", "form", "answers")


def answer_table(paper: Paper) -> bytes:
    """The template: a row for everybody whose numbers are in the paper, or an empty one for each form."""
    return csv_bytes(HEADS, [(form.person, form.serial, "") for form in paper.forms])
