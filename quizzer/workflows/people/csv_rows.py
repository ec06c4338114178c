"""Tables that people fill in with a spreadsheet: read whole, with everything that is wrong told at once."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from quizzer.bankfiles.doors import TooLarge, read_at_most
from quizzer.errors import Refused
from quizzer.render.csv.csvs import unguarded

LARGEST = 5_000_000


class BadRow(NamedTuple):
    """A line of the file that cannot be taken, and why, in one sentence."""

    line: int
    why: str


class CsvRow(NamedTuple):
    """One filled-in line: where it ends in the file, and its cells in the order that was asked for."""

    line: int
    cells: tuple[str, ...]


def read_rows(path: Path, heads: Sequence[str]) -> tuple[list[CsvRow], list[BadRow]]:
    """The rows of a file that has these columns in any order, and the lines that are no rows.

    A wrong first line is the only complaint: nothing below it can be understood then. Lines of empty cells are
    passed over. Raises Refused when the file cannot be read at all.
    """
    try:
        text = _content(path).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        return [], [BadRow(line, "this is not UTF-8: save the table as “CSV UTF-8 (comma separated)”")]
    return _rows(text, heads)


def _content(path: Path) -> bytes:
    try:
        return read_at_most(path, LARGEST)
    except OSError as error:
        raise Refused(f"{str(path)!r} cannot be read ({error.strerror})", mend="name a CSV file") from None
    except TooLarge:
        raise Refused(f"{str(path)!r} has more than {LARGEST:,} bytes", mend="split the table") from None


def _rows(text: str, heads: Sequence[str]) -> tuple[list[CsvRow], list[BadRow]]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    good: list[CsvRow] = []
    bad: list[BadRow] = []
    try:
        first = [cell.strip().casefold() for cell in next(reader, [])]
        if complaint := _wrong_heads(first, heads):
            return [], [BadRow(1, complaint)]
        places = [first.index(head) for head in heads]
        for cells in reader:
            if not "".join(cells).strip():
                continue
            if len(cells) != len(first):
                bad.append(BadRow(reader.line_num, f"{len(cells)} cells where the first line names {len(first)}"))
                continue
            good.append(CsvRow(reader.line_num, tuple([unguarded(cells[at]) for at in places])))
    except csv.Error as error:
        bad.append(BadRow(reader.line_num, f"this is not CSV ({error})"))
    return good, bad


def _wrong_heads(first: Sequence[str], heads: Sequence[str]) -> str:
    wanted = ", ".join(heads)
    if sorted(first) == sorted(heads):
        return ""
    if not first or first == [""]:
        return f"the first line is empty: it names the columns {wanted}"
    if any(sign in "".join(first) for sign in ";\t"):
        return f"the cells are not separated by commas: save the table as CSV with commas; its columns are {wanted}"
    return f"the columns are {', '.join(first)!r:.200}, where they should be {wanted}"
