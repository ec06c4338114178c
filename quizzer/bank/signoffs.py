"""What tutors have said about entries: signed off against an edition, or disputed. A file beside the bank."""

from __future__ import annotations

import json
from datetime import date
from typing import NamedTuple

from quizzer.bank.bounds import said
from quizzer.bank.entries import Entry
from quizzer.bank.fields import Fields, Notes
from quizzer.bank.file_reading import parse
from quizzer.bank.head_reading import ID
from quizzer.bank.mends import AS_AN_ID

FILE = "signoffs.toml"
HEADING = "# What tutors have said about entries. A sign-off falls away by itself when its entry changes.\n"


class SignOff(NamedTuple):
    """A tutor has checked the entry, as it stood, against an edition."""

    entry: str
    by: str
    edition: str
    day: str
    digest: str


class Dispute(NamedTuple):
    """Somebody does not believe the entry as it stood."""

    entry: str
    reason: str
    day: str
    digest: str


class Ledger(NamedTuple):
    """Every sign-off and every dispute, in the order they were made."""

    signoffs: tuple[SignOff, ...] = ()
    disputes: tuple[Dispute, ...] = ()

    def signed(self, entry: Entry) -> SignOff | None:
        """The latest sign-off of the entry as it stands now; None when there is none, or its text has changed."""
        found = [each for each in self.signoffs if (each.entry, each.digest) == (entry.head.id, entry.head.digest)]
        return found[-1] if found else None

    def disputed(self, entry: Entry) -> tuple[Dispute, ...]:
        """The disputes of the entry as it stands now: mending the entry, or signing it off later, settles them."""
        signed = self.signed(entry)
        return tuple(
            each
            for each in self.disputes
            if (each.entry, each.digest) == (entry.head.id, entry.head.digest)
            and not (signed and signed.day > each.day)
        )


def read_ledger(notes: Notes) -> Ledger:
    """The ledger of a file's text; complaints go to its list."""
    top = Fields(parse(notes), (), notes)
    signoffs = tuple(
        SignOff(_entry(each), each.text("by"), each.text("edition"), _day(each), each.text("digest"))
        for each in top.array("signoff")
    )
    disputes = tuple(
        Dispute(_entry(each), each.text("reason"), _day(each), each.text("digest")) for each in top.array("dispute")
    )
    top.done()
    return Ledger(signoffs, disputes)


def _entry(fields: Fields) -> str:
    found = fields.text("entry")
    if found and not all(ID.fullmatch(part) for part in found.split("/")):
        fields.complain("Q109", "entry", f"{said(found)} is no entry", AS_AN_ID)
    return found


def _day(fields: Fields) -> str:
    found = fields.text("day")
    try:
        date.fromisoformat(found)
    except ValueError:
        if found:
            fields.complain("Q107", "day", f"day is {said(found)}", "write it like 2026-11-25")
    return found


def written(record: SignOff | Dispute) -> str:
    """The block of TOML that reads back as the record."""
    kind = "signoff" if isinstance(record, SignOff) else "dispute"
    # A JSON string is a TOML string too, whatever it holds, once the delete character is gone.
    lines = [
        f"{key} = {json.dumps(value.replace(chr(127), ''), ensure_ascii=False)}"
        for key, value in record._asdict().items()
    ]
    return "\n".join(["", f"[[{kind}]]", *lines, ""])
