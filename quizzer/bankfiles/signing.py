"""The ledger of sign-offs beside a bank: read it, add a record to it."""

from __future__ import annotations

from pathlib import Path

from quizzer.bank.fields import Notes
from quizzer.bank.signoffs import FILE, HEADING, Ledger, Record, read_ledger, written
from quizzer.bankfiles.doors import save_whole
from quizzer.bankfiles.texts import read_text
from quizzer.errors import BankError


def ledger(*roots: Path) -> Ledger:
    """The ledger of bank folders, empty when there is none yet. Raises BankError when one cannot be used."""
    found = [_ledger(root) for root in roots]
    return Ledger(*(tuple(each for one in parts for each in one) for parts in zip(*found, strict=True)))


def _ledger(root: Path) -> Ledger:
    path = root / FILE
    if not path.is_file():
        return Ledger()
    notes = Notes(f"{root.name}/{FILE}", "")
    notes.text = read_text(path, notes)
    found = read_ledger(notes) if not notes.issues else Ledger()
    if notes.issues:
        raise BankError(notes.issues)
    return found


def add(root: Path, *records: Record) -> None:
    """Add records: the whole file is written aside and renamed, so that it is never half there. Raises Refused."""
    ledger(root)  # a file that cannot be read is not written over
    path = root / FILE
    before = path.read_bytes() if path.is_file() else HEADING.encode()
    save_whole(
        path,
        before + "".join(map(written, records)).encode(),
        mend="work on a bank folder of your own, named with --bank",
    )
