"""`quizzer paper print`: a paper's files made again from its record, and which variants of print are wanted."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from quizzer.bankfiles.centre_files import FILE, Letterhead, centre_of
from quizzer.blocks.words import count
from quizzer.cli.opening import Banks, open_shelf, opened_store
from quizzer.cli.screen import tell
from quizzer.errors import UsageError
from quizzer.paper.record import Paper
from quizzer.paper.seating import Seat
from quizzer.workflows.papers.class_file import class_files
from quizzer.workflows.papers.files import VARIANTS, read_paper, write_folder
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.seats import read_seats, seated
from quizzer.workflows.papers.writing import write_paper


class PrintWishes(NamedTuple):
    """The options of the command."""

    paper: Path
    large: Sequence[int]
    easy: bool
    seats: str | None
    centre: Path | None
    out: Path | None
    bank: Banks
    store: str | None


def print_again(wishes: PrintWishes) -> None:
    """Write the files of a paper, or of a class that sits it, into a new folder, and say which."""
    paper, head = read_paper(wishes.paper), centre_named(wishes.centre)
    folder, shelf = wishes.out or Path(f"{paper.id}-print"), open_shelf(wishes.bank)
    if wishes.seats is None:
        names = write_paper(shelf, paper, folder, variants(wishes.large, wishes.easy), head=head)
        told = [f"Paper {paper.id}, made again as it was. In {folder}/:"]
    else:
        if wishes.large or wishes.easy:
            raise UsageError("--class prints each in their own variant", mend="name it in the column print of the list")
        seats = _seats(paper, wishes)
        names = write_folder(folder, class_files(paper, Making(shelf, paper), seats, head))
        told = [f"Paper {paper.id} for {count(len(seats), 'seat')}, on both sides. In {folder}/:"]
    tell("\n".join([*told, *(f"  {name}" for name in names)]))


def _seats(paper: Paper, wishes: PrintWishes) -> tuple[Seat, ...]:
    """The class of a list, or of a group of the store in its order."""
    named = wishes.seats or ""
    if Path(named).suffix.lower() in {".csv", ".xlsx"}:
        return read_seats(Path(named), paper)
    with opened_store(wishes.store) as store:
        return seated(paper, store.groups.members(named))


def centre_named(path: Path | None) -> Letterhead | None:
    """The centre of the option; else of the centre.toml in the folder where the person works, if there is one."""
    if path is None and not Path(FILE).is_file():
        return None
    return centre_of(path or Path(FILE))


def variants(large: Sequence[int], easy: bool) -> tuple[str, ...]:
    """The variants of print: the standard one always, and what is asked for. Raises UsageError."""
    wanted = [f"large-print-{size}" for size in dict.fromkeys(large)] + ["wide-spaced"] * easy
    if unknown := [each for each in wanted if each not in VARIANTS]:
        size = unknown[0].rpartition("-")[2]
        raise UsageError(f"--large-print {size} is no size we print", mend="18 or 24 points")
    return VARIANTS[0], *wanted
