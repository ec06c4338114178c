"""`quizzer store`: where the data is, copies of it, and whether it is sound."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from quizzer.cli.asking import agreed
from quizzer.cli.exits import FINDINGS, FINE, STORE
from quizzer.cli.opening import opened_store, store_url
from quizzer.cli.screen import put_json, put_page, tell
from quizzer.pages.store import store_page
from quizzer.store.rescue import restore_store


def info(as_object: bool, store: str | None) -> None:
    """Where the store is and what is in it."""
    with opened_store(store, create=False) as found:
        facts = found.info()
    if as_object:
        put_json({**facts._asdict(), "counts": facts.counts._asdict()})
        return
    put_page(store_page(facts))


def backup(to: Path, store: str | None) -> None:
    """A consistent copy in a file."""
    with opened_store(store, create=False) as found:
        counts = found.backup(to)
    tell(f"Copied {counts.trainees} trainees and {counts.reviews} answers to {to}.")


def restore(source: Path, yes: bool, store: str | None) -> int:
    """A copy in place of the store, after asking; the old one is kept aside."""
    if not yes and not agreed(f"Put {source} in place of the store? What is there now is kept aside. Type yes: "):
        tell("Nothing was changed.")
        return FINDINGS
    restored = restore_store(store_url(store), source, datetime.now().astimezone())
    tell(f"Restored {restored.counts.trainees} trainees and {restored.counts.reviews} answers.")
    if restored.aside:
        tell(f"What was there before is kept in {restored.aside}.")
    return FINE


def check(store: str | None) -> int:
    """Whether the store is sound; every fault is a line."""
    with opened_store(store, create=False) as found:
        faults = found.check()
    for fault in faults:
        tell(fault)
    tell("The store is sound." if not faults else "The store is damaged: restore the last good copy.")
    return STORE if faults else FINE
