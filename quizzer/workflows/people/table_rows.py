"""Tables that people fill in with a spreadsheet: read whole, with everything that is wrong told at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from quizzer.bankfiles.sheet import FileSheet, NoTable
from quizzer.bankfiles.sheets import read_sheets
from quizzer.bankfiles.zips import Unsafe
from quizzer.errors import Refused
from quizzer.render.csv.csvs import unguarded

TOP = 10  # lines within which the columns are named: exports begin with a title
SHOWN = 8  # columns named in a note
_OTHERWISE = "leave one of the two"


class BadRow(NamedTuple):
    """A line of the file that cannot be taken, and why, in one sentence; `alike` is one for rows told together."""

    line: int
    why: str
    alike: str = ""


class TableRow(NamedTuple):
    """One filled-in line: where it ends in the file, and the cells of each thing that was asked for."""

    line: int
    cells: tuple[tuple[str, ...], ...]


class Layout(NamedTuple):
    """The places of the columns of each thing that is asked for."""

    places: tuple[tuple[int, ...], ...]


class ReadTable(NamedTuple):
    """What a file holds: rows, lines that are none, what is to be told, and how the columns are laid out."""

    rows: list[TableRow]
    bad: list[BadRow]
    notes: list[str]
    layout: Layout


Finder = Callable[[Sequence[str]], Layout | str]  # heads, folded -> the layout, or what is wrong with them


class _Fit(NamedTuple):
    sheet: FileSheet
    at: int
    heads: tuple[str, ...]
    layout: Layout


def read_rows(path: Path, find: Finder) -> ReadTable:
    """The rows of a file whose columns `find` knows. Lines of empty cells are passed over.

    Where no line names the columns that is the only complaint. Raises Refused when the file cannot be read at all, or
    may be read in two ways.
    """
    try:
        sheets, notes = read_sheets(path)
    except NoTable as no:
        return ReadTable([], [BadRow(no.line, no.why)], [], Layout(()))
    except Unsafe as unsafe:
        raise Refused(f"{str(path)!r} is not opened: {unsafe}", mend="save the table anew, or as CSV") from None
    fits = [fit for sheet in sheets for fit in _fits(sheet, find)][: len(sheets)]
    if not fits:
        return ReadTable([], [_misfit(sheets, find)], [], Layout(()))
    fit = _best(path, fits)
    rows, bad = _rows(fit)
    return ReadTable(rows, bad, [*notes, *_notes(fit)], fit.layout)


def folded(head: str) -> str:
    """A column's head as it is compared.

    >>> folded(" First_Name: ")
    'first name'
    """
    return " ".join(head.replace("_", " ").strip(" \t\n:").casefold().split())


def only(heads: Sequence[str], names: Iterable[str], what: str, mend: str = _OTHERWISE) -> tuple[int, ...] | str:
    """The place of the one column with any of these names, () for none, or a complaint about two, with its mend."""
    names = tuple(names)
    found = [at for at, head in enumerate(heads) if head in names]
    if len(found) > 1:
        return f"two columns could be the {what}, {heads[found[0]]!r} and {heads[found[1]]!r}: {mend}"
    return tuple(found)


def columns(*wanted: str) -> Finder:
    """A finder of columns by exactly these names, in any order, others beside them."""

    def find(heads: Sequence[str]) -> Layout | str:
        places = []
        for name in wanted:
            at = only(heads, [name], name)
            if isinstance(at, str):
                return at
            if not at:
                return lacking(heads, wanted)
            places.append(at)
        return Layout(tuple(places))

    return find


def lacking(heads: Sequence[str], wanted: Iterable[str]) -> str:
    """What is said of a first line that does not name what is wanted."""
    needed = ", ".join(wanted)
    if not any(heads):
        return f"the first line is empty: it names the columns {needed}"
    return f"the columns are {', '.join(heads)!r:.200}, where they should be {needed}"


def in_order(bad: Iterable[BadRow]) -> tuple[BadRow, ...]:
    """Complaints in the order of the file."""
    return tuple(sorted(bad, key=lambda one: one.line))


def _fits(sheet: FileSheet, find: Finder) -> list[_Fit]:
    """The first line that names the columns, if any does."""
    for at, line in enumerate(sheet.lines[:TOP]):
        layout = find([folded(cell) for cell in line.cells])
        if isinstance(layout, Layout):
            return [_Fit(sheet, at, line.cells, layout)]
    return []


def _misfit(sheets: Sequence[FileSheet], find: Finder) -> BadRow:
    """What is wrong with the columns, of the reading that gives the most of them."""
    tops = [line for sheet in sheets for line in sheet.lines[:1]]
    if not tops:
        broken = [each for sheet in sheets for each in sheet.broken]
        return BadRow(*broken[0]) if broken else BadRow(1, str(find([])))
    top = max(tops, key=lambda line: sum(map(bool, line.cells)))
    return BadRow(top.number, str(find([folded(cell) for cell in top.cells])))


def _best(path: Path, fits: list[_Fit]) -> _Fit:
    """The reading with the most columns. Raises Refused where two have as many."""
    most = max(len(fit.heads) for fit in fits)
    best = [fit for fit in fits if len(fit.heads) == most]
    # Text of a single column is the same however its cells are parted, and commas come first.
    if len(best) > 1 and (most > 1 or best[0].sheet.where.startswith("sheet")):
        where = " and as ".join(fit.sheet.where for fit in best)
        raise Refused(f"{str(path)!r} can be read as {where}", mend="keep one of them in the file")
    return best[0]


def _rows(fit: _Fit) -> tuple[list[TableRow], list[BadRow]]:
    rows, bad, wide = [], [BadRow(*each) for each in fit.sheet.broken], len(fit.heads)
    for line in fit.sheet.lines[fit.at + 1 :]:
        if not any(cell.strip() for cell in line.cells):
            continue
        if len(line.cells) < wide or any(cell.strip() for cell in line.cells[wide:]):
            bad.append(BadRow(line.number, f"{len(line.cells)} cells where the first line names {wide}"))
            continue
        cells = tuple(tuple(unguarded(line.cells[at]) for at in places) for places in fit.layout.places)
        rows.append(TableRow(line.number, cells))
    return rows, bad


def _notes(fit: _Fit) -> list[str]:
    used = {at for places in fit.layout.places for at in places}
    extra = [head.strip() for at, head in enumerate(fit.heads) if at not in used and head.strip()]
    named = ", ".join(extra[:SHOWN]) + (f" and {len(extra) - SHOWN} more" if len(extra) > SHOWN else "")
    found = [f"Columns passed over: {named}."] if extra else []
    return [f"Line {fit.sheet.lines[fit.at].number} was taken for the heads.", *found] if fit.at else found
