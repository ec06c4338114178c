"""Signing entries off with the book in hand, disputing them, and seeing what is still to be checked."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from quizzer.bank.entries import Entry
from quizzer.bank.families import Family
from quizzer.bank.signoffs import Dispute, Ledger, Settlement, SignOff, instant_text
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import add, ledger
from quizzer.characters import steering
from quizzer.errors import NotFound, QuizzerError, Refused
from quizzer.store import Store
from quizzer.workflows.bank.entries_under import wanted
from quizzer.workflows.people.table_rows import BadRow, columns, in_order, read_rows

LIST_HEADS = ("entry", "by", "edition")


class Open(NamedTuple):
    """An entry that nobody has signed off as it stands."""

    id: str
    evidence: str
    edition: str
    currency: str
    source: str
    disputed: bool


def sign_off(shelf: Shelf, id: str, by: str, edition: str, now: datetime) -> SignOff:
    """Record that a tutor has checked the entry as it stands. Raises NotFound, BankError or Refused."""
    record = _signed(shelf, id, by, edition, now, ("--by", "--edition"))
    add(shelf.home(record.entry), record)
    return record


def read_list(shelf: Shelf, path: Path, now: datetime) -> tuple[tuple[SignOff, ...], tuple[BadRow, ...], list[str]]:
    """The sign-offs of a table of entry, by and edition, every row that is bad, and notes on the table. Raises Refused.

    Rows that name nobody and no edition are still to be filled in, and are passed over.
    """
    table = read_rows(path, columns(*LIST_HEADS))
    bad = table.bad
    filled = [row for row in table.rows if any(cell.strip() for part in row.cells[1:] for cell in part)]
    lines: dict[str, int] = {}
    found = []
    for row in filled:
        id, by, edition = (cell.strip() for part in row.cells for cell in part)
        try:
            if id in lines:
                raise Refused(f"{id} stands in line {lines[id]} already", mend="leave one of the two")
            lines[id] = row.line
            found.append(_signed(shelf, id, by, edition, now, ("by", "edition")))
        except QuizzerError as error:
            bad.append(BadRow(row.line, f"{error.message}: {error.mend}"))
    if not filled and not bad:
        bad.append(BadRow(1, "no row below names who checked an entry, and against which edition"))
    return tuple(found), in_order(bad), table.notes


def sign_all(shelf: Shelf, records: Sequence[SignOff]) -> None:
    """Record these sign-offs, all of them or none. Raises BankError or Refused."""
    homes = list(dict.fromkeys(shelf.home(record.entry) for record in records))
    if len(homes) > 1:
        what = f"the table is about entries of two banks, {str(homes[0])!r} and {str(homes[1])!r}"
        raise Refused(what, mend="make a table for each")
    add(homes[0], *records)


def dispute(shelf: Shelf, id: str, reason: str, now: datetime) -> Dispute:
    """Record that somebody does not believe the entry as it stands. Raises NotFound, BankError or Refused."""
    _filled(("--reason", reason))
    head = shelf.find(id).head  # of another id, where this one was replaced
    record = Dispute(head.id, reason.strip(), _day(now), head.digest, instant_text(now))
    add(shelf.home(head.id), record)
    return record


def unsigned(shelf: Shelf, topics: Sequence[str] = ()) -> tuple[tuple[Open, ...], int]:
    """The entries still to be signed off, in the order of the files, and how many entries there are in all.

    Raises NotFound for a topic that is not there.
    """
    told, ids = ledger(*shelf.roots), {listed.id for listed in wanted(shelf, topics)}
    entries = [entry for _, loaded in shelf.everything() for entry in loaded.entries if entry.head.id in ids]
    still = [_open(entry, told) for entry in entries if told.signed(entry) is None]
    return tuple(still), len(entries)


def disputes(shelf: Shelf, store: Store) -> list[tuple[str, str, str, bool]]:
    """Every open dispute, of tutors and of trainees: day, entry, reason, and whether the entry stands as it was."""
    digests = {entry.head.id: entry.head.digest for _, loaded in shelf.everything() for entry in loaded.entries}
    return [
        (each.day, each.entry, each.reason, digests.get(each.entry) == each.digest)
        for each in _open_disputes(shelf, store)
    ]


def settle(shelf: Shelf, store: Store, id: str, reason: str, now: datetime) -> tuple[Settlement, int]:
    """Settle the open disputes of an entry, which need not be in the bank any more; how many they are.

    Raises NotFound where the entry has none, BankError or Refused.
    """
    _filled(("--reason", reason))
    found = [each.entry for each in _open_disputes(shelf, store)]
    if id not in found:
        near = difflib.get_close_matches(id, found, n=1)
        mend = f"did you mean {near[0]}?" if near else "`quizzer disputes` lists those that are open"
        raise NotFound(f"no dispute of {id!r:.120} is open", mend=mend)
    record = Settlement(id, reason.strip(), _day(now), instant_text(now))
    add(shelf.home(id), record)
    return record, found.count(id)


def _open_disputes(shelf: Shelf, store: Store) -> list[Dispute]:
    told = ledger(*shelf.roots)
    raised = [
        Dispute(each.entry, each.reason, f"{each.raised_at:%Y-%m-%d}", each.digest, instant_text(each.raised_at))
        for each in store.challenges()
    ]
    return sorted((each for each in (*told.disputes, *raised) if not told.settled(each)), key=lambda each: each.day)


def _day(now: datetime) -> str:
    return now.date().isoformat()


def _signed(shelf: Shelf, id: str, by: str, edition: str, now: datetime, names: tuple[str, str]) -> SignOff:
    _filled((names[0], by), (names[1], edition))
    head = shelf.find(id).head
    return SignOff(head.id, by.strip(), edition.strip(), _day(now), head.digest, instant_text(now))


def _open(entry: Entry, told: Ledger) -> Open:
    head = entry.head
    sources = [head.source, *(stem.head.source for stem in entry.stems)] if isinstance(entry, Family) else [head.source]
    source = "; ".join(dict.fromkeys(sources))
    return Open(head.id, head.evidence, head.edition, head.currency.state, source, bool(told.disputed(entry)))


def _filled(*options: tuple[str, str]) -> None:
    for name, value in options:
        if not value.strip() or len(value) > 2000 or any(ord(letter) < 32 for letter in value) or steering(value):
            raise Refused(
                f"{name} is empty, longer than 2000 characters, or has control characters", mend="write one line"
            )
