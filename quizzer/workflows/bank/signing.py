"""Signing entries off with the book in hand, disputing them, and seeing what is still to be checked."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from quizzer.bank.signoffs import Dispute, SignOff
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import add, ledger
from quizzer.characters import steering
from quizzer.errors import Refused
from quizzer.store import Store
from quizzer.workflows.bank.entries_under import wanted


class Open(NamedTuple):
    """An entry that nobody has signed off as it stands."""

    id: str
    evidence: str
    edition: str
    disputed: bool


def sign_off(shelf: Shelf, id: str, by: str, edition: str, day: date) -> SignOff:
    """Record that a tutor has checked the entry as it stands. Raises NotFound, BankError or Refused."""
    _filled(("--by", by), ("--edition", edition))
    record = SignOff(id, by.strip(), edition.strip(), day.isoformat(), shelf.find(id).head.digest)
    add(shelf.root, record)
    return record


def dispute(shelf: Shelf, id: str, reason: str, day: date) -> Dispute:
    """Record that somebody does not believe the entry as it stands. Raises NotFound, BankError or Refused."""
    _filled(("--reason", reason))
    record = Dispute(id, reason.strip(), day.isoformat(), shelf.find(id).head.digest)
    add(shelf.root, record)
    return record


def unsigned(shelf: Shelf, topics: Sequence[str] = ()) -> tuple[tuple[Open, ...], int]:
    """The entries still to be signed off, in the order of the files, and how many entries there are in all.

    Raises NotFound for a topic that is not there.
    """
    told, ids = ledger(shelf.root), {listed.id for listed in wanted(shelf, topics)}
    entries = [entry for _, loaded in shelf.everything() for entry in loaded.entries if entry.head.id in ids]
    still = [
        Open(entry.head.id, entry.head.evidence, entry.head.edition, bool(told.disputed(entry)))
        for entry in entries
        if told.signed(entry) is None
    ]
    return tuple(still), len(entries)


def disputes(shelf: Shelf, store: Store) -> list[tuple[str, str, str, bool]]:
    """Every dispute, of tutors and of trainees: day, entry, reason, and whether the entry still stands as it was."""
    told = [(each.day, each.entry, each.reason, each.digest) for each in ledger(shelf.root).disputes]
    told += [(f"{each.raised_at:%Y-%m-%d}", each.entry, each.reason, each.digest) for each in store.challenges()]
    digests = {entry.head.id: entry.head.digest for _, loaded in shelf.everything() for entry in loaded.entries}
    return [(day, entry, reason, digests.get(entry) == digest) for day, entry, reason, digest in sorted(told)]


def _filled(*options: tuple[str, str]) -> None:
    for name, value in options:
        if not value.strip() or len(value) > 2000 or any(ord(letter) < 32 for letter in value) or steering(value):
            raise Refused(f"{name} is empty, longer than 2000 characters, or has control characters",
                          mend="write one line")  # fmt: skip
