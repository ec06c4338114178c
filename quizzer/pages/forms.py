"""The forms in which a question can be asked, and which of them an entry offers."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.blocks.page import Page
from quizzer.blocks.text import DataTable
from quizzer.workflows.exercises import Offered


def forms_page(id: str, offered: Sequence[Offered]) -> Page:
    """A row a form: its name, what it asks, and why this entry has none."""
    rows = [(each.name, each.asks, f"no: {each.refused}" if each.refused else "yes") for each in offered]
    return Page(f"Forms of {id}", [DataTable("", ["Form", "What is asked", "Offered here"], rows, whole=(0,))])
