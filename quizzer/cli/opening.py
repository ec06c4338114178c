"""Opening what a command works with: the bank folder and the store."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime
from itertools import count
from pathlib import Path
from random import randrange
from typing import TYPE_CHECKING
from uuid import uuid4

from quizzer.bank.bounds import MOST_SEED, YEARS, said
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.errors import UsageError

if TYPE_CHECKING:  # most commands do not open the store
    from quizzer.store import Store
    from quizzer.workflows.world import World

SHIPPED = "shipped"  # the word for the bank that comes with the program; a folder of that name is ./shipped
Banks = Sequence[Path] | None  # what --bank was given


def open_shelf(bank: Banks) -> Shelf:
    """The bank folders named, by the option or by QUIZZER_BANK, or the shipped one. Raises UsageError."""
    roots = [_root(one) for one in named_banks(bank)] or [shipped().resolve()]
    for at, root in enumerate(roots):
        if near := next((one for one in roots[:at] if one == root or one in root.parents or root in one.parents), None):
            what = f"the bank folder {str(root)!r} is {str(near)!r}, or one lies in the other"
            raise UsageError(what, mend="name each bank once, beside each other")
    return Shelf(*roots)


def named_banks(bank: Banks) -> list[Path]:
    """The banks that the option names, else QUIZZER_BANK, else the centre's file here; none where none says any."""
    listed = os.environ.get("QUIZZER_BANK", "").split(os.pathsep)
    return list(bank or ()) or [Path(one) for one in listed if one] or _of_the_centre()


def _of_the_centre() -> list[Path]:
    here = Path("centre.toml")
    if not here.is_file():
        return []
    from quizzer.bankfiles.centre_files import banks_of

    return banks_of(here)


def _root(bank: Path) -> Path:
    root = (shipped() if str(bank) == SHIPPED else bank).resolve()
    if not root.is_dir():
        raise UsageError(f"no bank folder {str(bank)!r}", mend="name a folder that holds topic folders, or shipped")
    return root


@contextmanager
def open_world(bank: Banks, store: str | None, now: str | None = None, seed: int | None = None) -> Iterator[World]:
    """Store, bank, clock and dice of a command; the store is closed at the end.

    `now` and `seed` stand still for tests and recordings: an instant in ISO 8601, and the first seed of questions.
    """
    from quizzer.workflows.world import World

    with opened_store(store) as found:
        yield World(found, open_shelf(bank), _clock(now), _dice(seed), lambda: uuid4().hex)


@contextmanager
def opened_store(store: str | None, *, create: bool = True) -> Iterator[Store]:
    """The store of the option, of QUIZZER_STORE, or the user's own; made unless told not to. Raises StoreError."""
    from quizzer.store import open_store

    # What is open by now stays to the end. Unfrozen, the first two collections would look through all of it before
    # the first question, and the last one when the process ends: a third of the time of a session without answers.
    gc.freeze()
    gc.enable()  # from here on a command may run for an hour
    found = open_store(store_url(store), create=create)
    try:
        yield found
    finally:
        found.close()


def store_url(store: str | None) -> str:
    """The place named by the option, by QUIZZER_STORE, or the user's own."""
    from quizzer.store import default_url

    return store or os.environ.get("QUIZZER_STORE") or default_url()


def checked_seed(seed: int | None) -> int | None:
    """The seed, if it is one that can be kept. Raises UsageError."""
    if seed is not None and not 0 <= seed <= MOST_SEED:
        raise UsageError(f"--seed {said(seed)} is no seed", mend=f"give a whole number from 0 to {MOST_SEED}")
    return seed


def clock(now: str | None) -> Callable[[], datetime]:
    """The clock of a command that opens no store; `now` makes it stand still."""
    return _clock(now)


def _clock(now: str | None) -> Callable[[], datetime]:
    try:
        fixed = datetime.fromisoformat(now).astimezone() if now is not None else None
    except (ValueError, OverflowError):
        raise UsageError(f"--now {now!r} is no instant", mend="write it like 2026-11-26T07:00") from None
    if (fixed or datetime.now().astimezone()).year not in YEARS:
        what = f"--now {now!r}" if fixed else "the clock of this computer"
        raise UsageError(f"{what} is not from {YEARS[0]} to {YEARS[-1]}", mend="set it right")
    return lambda: fixed or datetime.now().astimezone()


def _dice(seed: int | None) -> Callable[[], int]:
    if seed is None:
        return lambda: randrange(1, 1_000_000)
    counter = count(checked_seed(seed) or 0)
    return lambda: next(counter)
