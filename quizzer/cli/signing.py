"""`quizzer signoff`, `dispute`, `disputes` and `topics --unsigned`: what a tutor with the book in hand needs."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.page import Page
from quizzer.blocks.words import count
from quizzer.cli.bad_rows import show_bad
from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import Banks, open_shelf, opened_store
from quizzer.cli.screen import put_page, tell
from quizzer.errors import UsageError
from quizzer.pages.signing import disputes_page, unsigned_page, worklist_page
from quizzer.workflows.bank.signing import dispute, disputes, read_list, settle, sign_all, sign_off, unsigned
from quizzer.workflows.bank.worklist import worklist, worklist_csv


def signoff(id: str | None, by: str | None, edition: str | None, table: Path | None, bank: Banks) -> int:
    """Record a sign-off, or those of a table, and say so; 1 when rows of the table are bad."""
    if table is not None and not (id or by or edition):
        return _sign_table(table, bank)
    if table is not None or id is None or by is None or edition is None:
        raise UsageError("it takes ENTRY with --by and --edition, or --from FILE alone", mend="give one or the other")
    record = sign_off(open_shelf(bank), id, by, edition, datetime.now().astimezone())
    tell(f"{record.entry} is signed off by {record.by} against {record.edition}. It falls away if the entry changes.")
    return FINE


def _sign_table(table: Path, bank: Banks) -> int:
    shelf = open_shelf(bank)
    records, bad, notes = read_list(shelf, table, datetime.now().astimezone())
    if bad:
        show_bad(table, bad)
        return FINDINGS
    sign_all(shelf, records)
    tell(f"{count(len(records), 'entry', 'entries')} signed off from {table.name}. Each falls away if it changes.")
    for note in notes:
        tell(note)
    return FINE


def raise_dispute(id: str, reason: str, bank: Banks) -> None:
    """Record a dispute and say so."""
    record = dispute(open_shelf(bank), id, reason, datetime.now().astimezone())
    tell(f"{record.entry} is disputed: {record.reason}. A sign-off settles it, and so does `disputes settle`.")


def list_disputes(bank: Banks, store: str | None) -> None:
    """Every open dispute with its reason."""
    shelf = open_shelf(bank)
    with opened_store(store) as found:
        told = disputes(shelf, found)
    put_page(disputes_page(told))


def settle_disputes(id: str, reason: str, bank: Banks, store: str | None) -> None:
    """Settle the open disputes of an entry and say so."""
    shelf = open_shelf(bank)
    with opened_store(store) as found:
        record, settled = settle(shelf, found, id, reason, datetime.now().astimezone())
    tell(f"{count(settled, 'dispute')} of {record.entry} settled: {record.reason}.")


def list_unsigned(bank: Banks, topics: list[str], *, plain: bool) -> None:
    """The entries still to be signed off, with how far each was checked."""
    put_page(unsigned_page(*unsigned(open_shelf(bank), topics)), plain)


def list_by_regulation(bank: Banks, topics: list[str], out: Path | None, *, plain: bool) -> None:
    """The entries still to be signed off in the order of the book: on the screen, as PDF, or as a table to fill in."""
    ending = out.suffix.lower() if out else ""
    if out and ending not in {".pdf", ".csv"}:
        raise UsageError(f"--out {str(out)!r} is neither .pdf nor .csv", mend="end the name in .pdf or .csv")
    still, entries = unsigned(open_shelf(bank), topics)
    parts = worklist(still)
    page = worklist_page(parts, entries)
    if not out:
        put_page(page, plain)
        return
    save_whole(out, worklist_csv(parts) if ending == ".csv" else _pdf(page))
    tell(f"Written: {out}")


def _pdf(page: Page) -> bytes:
    from quizzer.render.typst.report import report_pdf  # here, not above: the screen needs none of it

    day = datetime.now().astimezone().date()
    return report_pdf(page, day, day.isoformat(), "Checked with the book in hand, entry by entry")
