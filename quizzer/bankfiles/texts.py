"""The text of a bank file, read no further than its limit."""

from __future__ import annotations

from pathlib import Path

from quizzer.bank.fields import Notes
from quizzer.bank.mends import SAVE_AS_UTF8, SPLIT
from quizzer.bankfiles.doors import TooLarge, read_at_most
from quizzer.errors import Issue, Place

LARGEST = 2_000_000  # bytes; the largest shipped file is far below a tenth of this


def glance(path: Path) -> str:
    """The text of a file as far as it can be read at all; "" for one that is too large, or no file."""
    try:
        return read_at_most(path, LARGEST).decode("utf-8", "replace") if path.is_file() else ""
    except (OSError, TooLarge):
        return ""


def read_text(path: Path, notes: Notes) -> str:
    """The text of a file; complains and gives "" when it is too large, not UTF-8 or cannot be read."""
    if path.exists() and not path.is_file():
        _complain(notes, "Q103", "no file but a folder, a device or a pipe", "put a file in its place")
        return ""
    try:
        return read_at_most(path, LARGEST).decode("utf-8").replace("\r\n", "\n").removeprefix("\ufeff")
    except TooLarge:
        _complain(notes, "Q103", f"larger than {LARGEST // 1_000_000} MB", SPLIT)
    except UnicodeDecodeError as error:
        _complain(notes, "Q102", f"not UTF-8 at byte {error.start}", SAVE_AS_UTF8)
    except OSError as error:
        _complain(notes, "Q103", f"cannot be read: {error.strerror}", "check the file and its permissions")
    return ""


def _complain(notes: Notes, code: str, what: str, mend: str) -> None:
    notes.issues.append(Issue(code, Place(notes.path), "file", what, mend))
