"""`quizzer signoff`, `dispute`, `disputes` and `topics --unsigned`: what a tutor with the book in hand needs."""

from __future__ import annotations

import sys
from collections import Counter
from datetime import datetime
from pathlib import Path

from quizzer.cli.opening import open_shelf, opened_store
from quizzer.cli.screen import look_of, put, tell
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.signing import Open, dispute, disputes, sign_off, unsigned


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
    page = Canvas(look_of(sys.stdout))
    for day, entry, reason, standing in told:
        page.text(f"{day}  {entry}{'' if standing else ' (changed since)'}", style="bold")
        page.text(reason, indent=12)
    if not told:
        page.text("No disputes.")
    put(page)


def list_unsigned(bank: Path | None, topics: list[str]) -> None:
    """The entries still to be signed off, with how far each was checked."""
    still, entries = unsigned(open_shelf(bank), topics)
    page = Canvas(look_of(sys.stdout))
    for each in still:
        page.text(f"{each.id}  {each.evidence}{'  disputed' if each.disputed else ''}", hang=4)
    page.gap()
    page.text(f"{entries - len(still)} of {entries} entries are signed off.{_by_evidence(still)}", style="bold")
    put(page)


def _by_evidence(still: tuple[Open, ...]) -> str:
    counts = Counter(each.evidence for each in still)
    return f" Still open: {', '.join(f'{number} {kind}' for kind, number in counts.most_common())}." if counts else ""
