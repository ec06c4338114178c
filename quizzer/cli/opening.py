"""Opening what a command works with: the bank folder and the store."""

from __future__ import annotations

from pathlib import Path

from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.errors import UsageError


def open_shelf(bank: Path | None) -> Shelf:
    """The bank folder named, or the shipped one."""
    root = (bank or shipped()).resolve()
    if not root.is_dir():
        raise UsageError(f"no bank folder {str(bank or root)!r}", mend="name a folder that holds topic folders")
    return Shelf(root)
