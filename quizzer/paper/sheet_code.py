"""What the printed code of an answer sheet says: whose it is, of which paper, which page, and how it is laid out."""

from __future__ import annotations

import hashlib
import re
from typing import NamedTuple

from quizzer.paper.record import Form
from quizzer.paper.sheet_layout import LOOKS

LONGEST_NAME = 60  # bytes of a paper's id in a code: more would make its squares too small to be read
_KEY = "S1"
_WRITTEN = re.compile(_KEY + r" ([0-9a-f]{8}) ([a-z0-9-]+) (\d{1,3})/(\d{1,3}) (\d{1,4}) ([A-Z0-9-]{1,20}) (\S.*)")


class SheetCode(NamedTuple):
    """The page of a sheet: the paper's name, the form's serial and check, a seat (0: none), page of pages, the look."""

    paper: str
    serial: str
    check: str
    seat: int
    page: int
    pages: int
    look: str

    @property
    def text(self) -> str:
        """As it is printed.

        >>> SheetCode("mock-1", "A", "0123abcd", 7, 1, 2, "standard").text
        'S1 0123abcd standard 1/2 7 A mock-1'
        """
        return f"{_KEY} {self.check} {self.look} {self.page}/{self.pages} {self.seat} {self.serial} {self.paper}"


def read_code(text: str) -> SheetCode | None:
    """The code of a text; None where it is none of ours."""
    found = _WRITTEN.fullmatch(text)
    if found is None or found[2] not in LOOKS:
        return None
    check, look, page, pages, seat, serial, paper = found.groups()
    return SheetCode(paper, serial, check, int(seat), int(page), int(pages), look)


def code_name(paper_id: str) -> str:
    """A paper's id as a code holds it: itself, or a fingerprint of one that is too long."""
    if len(paper_id.encode()) <= LONGEST_NAME:
        return paper_id
    return "~" + hashlib.sha256(paper_id.encode()).hexdigest()[:16]


def check_of(form: Form) -> str:
    """A fingerprint of what a form asks, so that a sheet of another paper of the same name is told."""
    asked = "\n".join(f"{item.entry}#{item.seed}:{item.exercise}" for item in form.items)
    return hashlib.sha256(asked.encode()).hexdigest()[:8]
