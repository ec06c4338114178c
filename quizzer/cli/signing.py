"""`quizzer signoff`, `dispute`, `disputes` and `topics --unsigned`: what a tutor with the book in hand needs."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from quizzer.cli.opening import open_shelf, opened_store
from quizzer.cli.screen import put_page, tell
from quizzer.pages.signing import disputes_page, unsigned_page
from quizzer.workflows.bank.signing import dispute, disputes, sign_off, unsigned


def signoff(id: str, by: str, edition: str, bank: Path | None) -> None:
    """Record a sign-off and say so."""
    record = sign_off(open_shelf(bank), id, by, edition, datetime.now().astimezone().date())
    tell(f"{record.entry} is signed off by {record.by} against {record.edition}. It falls away if the entry changes.")


def raise_dispute(id: str, reason: str, bank: Path | None) -> None:
    """Record a dispute and say so."""
    record = dispute(open_shelf(bank), id, reason, datetime.now().astimezone().date())
    tell(f"{record.entry} is disputed: {record.reason}. Mend the entry, or sign it off, to settle it.")


def list_disputes(bank: Path | None, store: str | None) -> None:
    """Every dispute with its reason."""
    shelf = open_shelf(bank)
    with opened_store(store) as found:
        told = disputes(shelf, found)
    put_page(disputes_page(told))


def list_unsigned(bank: Path | None, topics: list[str]) -> None:
    """The entries still to be signed off, with how far each was checked."""
    put_page(unsigned_page(*unsigned(open_shelf(bank), topics)))
