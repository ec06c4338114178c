"""`quizzer bank import`: questions of a package or a table, taken into a bank as cards."""

from __future__ import annotations

from pathlib import Path

from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import Banks, open_shelf
from quizzer.cli.screen import progress, put_page
from quizzer.pages.imported import imported_page
from quizzer.workflows.bank.importing import import_file


def import_from(path: Path, into: Path, topic: str, banks: Banks, *, plain: bool) -> int:
    """Take what can be taken and list what cannot; 1 when something was left out."""
    beside = [root for root in open_shelf(banks).roots if root != into.resolve()]
    found = import_file(beside, path, into.resolve(), topic, lambda done, of: progress("checking file", done, of))
    put_page(imported_page(found), plain)
    return FINDINGS if found.left or not found.taken else FINE
