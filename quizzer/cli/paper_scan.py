"""`quizzer paper scan`: answer sheets read off scans and photographs, and what a person decides."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import NamedTuple

from quizzer.bankfiles.doors import save_whole
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import open_world
from quizzer.cli.screen import progress, put_page
from quizzer.pages.scan import doubt_words, scan_page
from quizzer.workflows.papers.finding import Making, paper_named
from quizzer.workflows.papers.readings import decided, named, readings_table
from quizzer.workflows.papers.scanning import ScanRead, SheetRead, read_scans
from quizzer.workflows.papers.seats import read_seats


class ScanWishes(NamedTuple):
    """The options of the command."""

    files: tuple[Path, ...]
    paper: str
    seats: Path | None
    out: Path | None
    bank: list[Path] | None
    store: str | None
    plain: bool


def scan(wishes: ScanWishes) -> int:
    """Read the sheets into a table for `paper mark`; 1 where something is left for a person."""
    with open_world(wishes.bank, wishes.store, None) as world:
        paper = paper_named(world.store, wishes.paper)
        making = Making(world.shelf, paper)
        seats = read_seats(wishes.seats, paper) if wishes.seats else ()
        found = read_scans(paper, making, wishes.files, seats, progress)
        if sys.stdin.isatty():
            found = _asked(keyboard(wishes.plain), found, making)
    target = wishes.out or Path(f"{paper.id}-readings.csv")
    if found.sheets:
        table = readings_table(paper, found)
        save_whole(target, table, replacing=wishes.out is not None, mend="name another file with --out")
    put_page(scan_page(paper, found, target), wishes.plain)
    return FINE if found.sheets and found.complete else FINDINGS


def _asked(keys: Keyboard, found: ScanRead, making: Making) -> ScanRead:
    """The scan with what the person has decided; whatever they leave stays open."""
    sheets = list(found.sheets)
    try:
        for at, sheet in enumerate(sheets):
            if not sheet.name:
                sheets[at] = named(
                    sheet, keys.line(f"{sheet.where}, form {sheet.form.serial}: whose? (Enter leaves it) ")
                )
            for doubt in sheet.doubts:
                sheets[at] = _decided(keys, sheets[at], doubt_words(sheets[at], doubt), doubt.question, making)
    except (Stopped, KeyboardInterrupt):
        keys.screen.write("\n")
    return found._replace(sheets=tuple(sheets))


def _decided(keys: Keyboard, sheet: SheetRead, words: str, question: int, making: Making) -> SheetRead:
    labels = making.of(sheet.form)[question - 1].labels
    while typed := keys.line(f"{words}. Letter, - for none, Enter leaves it: ").upper():
        if typed in {*labels, "-"}:
            return decided(sheet, question, typed)
        keys.say(f"Type one of {', '.join(labels)}, or -.")
    return sheet
