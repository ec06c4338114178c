"""`quizzer store`: where the data is, copies of it, and whether it is sound."""

from __future__ import annotations

import sys
from dataclasses import asdict
from datetime import datetime
from pathlib import Path

from quizzer.blocks.words import count
from quizzer.cli.asking import agreed
from quizzer.cli.exits import FINDINGS, FINE, STORE
from quizzer.cli.opening import opened_store, store_url
from quizzer.cli.screen import look_of, put, put_json, tell
from quizzer.render.terminal.canvas import Canvas
from quizzer.store.rescue import restore_store


def info(as_object: bool, store: str | None) -> None:
    """Where the store is and what is in it."""
    with opened_store(store, create=False) as found:
        facts = found.info()
    if as_object:
        put_json(asdict(facts))
        return
    page = Canvas(look_of(sys.stdout))
    page.text(f"Store: {facts.place}")
    size = f", {facts.size / 1e6:.1f} MB" if facts.size is not None else ""
    page.text(f"Kind: {facts.kind}, version {facts.version}{size}")
    counts = facts.counts
    remembered = count(counts.memories, "entry remembered", "entries remembered")
    page.text(
        f"Holds: {count(counts.trainees, 'trainee')}, {count(counts.reviews, 'answer')}, {remembered}, "
        f"{count(counts.challenges, 'dispute')}, {count(counts.groups, 'group')}, {count(counts.papers, 'paper')}, "
        f"{count(counts.scripts, 'script')}"
    )
    if facts.first and facts.last:
        page.text(f"Answers from {facts.first:%Y-%m-%d} to {facts.last:%Y-%m-%d}")
    for copy in facts.copies:
        page.text(f"Put aside by a restore: {copy}")
    put(page)


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
