"""A [[diagnose]] of a bank file to a Diagnose."""

from __future__ import annotations

from quizzer.bank.entries import Diagnose
from quizzer.bank.fields import Fields
from quizzer.bank.head import Head

ASKS = ("which-fault", "reading", "acceptable", "best-test")


def read_diagnose(fields: Fields, head: Head) -> Diagnose:
    """The entry; complaints go to the file's list."""
    fewest, most = fields.whole("fewest", 1, 12, 1), fields.whole("most", 1, 12, 12)
    if fewest > most:
        fields.complain("Q107", "most", f"points are {fewest} to {most}", "write fewest and most from 1 to 12")
    return Diagnose(
        head=head,
        shape=fields.text("shape"),
        asks=fields.choice("asks", ASKS),
        points=(fewest, most),
        faults=fields.texts("faults"),
        ask=fields.texts("ask", 1),
    )
