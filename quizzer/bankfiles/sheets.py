"""The tables of people's files, as spreadsheets save them: text in any usual encoding and parting, or a workbook."""

from __future__ import annotations

import codecs
import csv
import io
import re
from pathlib import Path

from quizzer.bankfiles.doors import TooLarge, read_at_most
from quizzer.bankfiles.sheet import FileSheet, NoTable, SheetLine
from quizzer.errors import Refused

LARGEST = 5_000_000  # bytes
WINDOWS = "Not UTF-8: read as Windows text (cp1252). Look at the letters with accents."
SIGNS = {",": "commas", ";": "semicolons", "\t": "tabs"}
_PARTED_BY = re.compile(r"sep=([,;\t])\r?\n", re.IGNORECASE)  # what one spreadsheet writes for another to go by
_UTF8 = "utf-8"
# The longer marks first: one of UTF-32 begins as one of UTF-16.
_MARKS = (
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_WORKBOOK, _OLD_WORKBOOK, _PDF = b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF-"
_ZERO, _CONTROL = re.compile("\x00"), re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")


def read_sheets(path: Path) -> tuple[list[FileSheet], list[str]]:
    """Every way to read the file as a table, and what is to be told of the reading. Raises Refused, NoTable."""
    content = _content(path)
    if content.startswith(_OLD_WORKBOOK):
        raise NoTable(1, "this is a workbook of the old kind (.xls): save it as .xlsx or as CSV")
    if content.startswith(_PDF):
        raise NoTable(1, "this is a PDF, and no table: save the table as CSV or .xlsx")
    if content.startswith(_WORKBOOK):
        from quizzer.bankfiles.workbooks import sheets_of  # opens openpyxl, which takes a third of a second

        return sheets_of(content), []
    text, note = decoded(content)
    return parted(text), [note] if note else []


def _content(path: Path) -> bytes:
    try:
        return read_at_most(path, LARGEST)
    except OSError as error:
        raise Refused(f"{str(path)!r} cannot be read ({error.strerror})", mend="name a CSV or .xlsx file") from None
    except TooLarge:
        raise Refused(f"{str(path)!r} has more than {LARGEST:,} bytes", mend="split the table") from None


def decoded(content: bytes) -> tuple[str, str]:
    """The text of a file, and a note where its encoding is a guess. Raises NoTable.

    >>> decoded("Zoë".encode("utf-16")), decoded("Zoë".encode("cp1252"))[0]
    (('Zoë', ''), 'Zoë')
    """
    encoding = next((name for mark, name in _MARKS if content.startswith(mark)), "") or _unmarked(content)
    note = ""
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError as error:
        if encoding != _UTF8:
            raise _no_text(error) from None
        text, note = _of_windows(content), WINDOWS
    if found := (_CONTROL if note else _ZERO).search(text):  # any bytes are Windows text: its signs must tell
        line = text.count("\n", 0, found.start()) + 1
        raise NoTable(line, "there are characters here that no table has: save it as CSV UTF-8 or .xlsx")
    return text.lstrip("\ufeff"), note


def _unmarked(content: bytes) -> str:
    """UTF-16 without a mark shows by its zeros: letters have one in every second place, UTF-8 has none."""
    even, odd = content[0::2].count(0), content[1::2].count(0)
    if not even and 4 * odd > len(content):
        return "utf-16-le"
    return "utf-16-be" if not odd and 4 * even > len(content) else _UTF8


def _of_windows(content: bytes) -> str:
    try:
        return content.decode("cp1252")
    except UnicodeDecodeError as error:
        raise _no_text(error) from None


def _no_text(error: UnicodeDecodeError) -> NoTable:
    line = error.object[: error.start].count(b"\n") + 1
    return NoTable(line, "this is neither UTF-8, UTF-16 nor Windows text: save the table as CSV UTF-8 or .xlsx")


def parted(text: str) -> list[FileSheet]:
    """The text with its cells parted at each sign that may part them."""
    if said := _PARTED_BY.match(text):
        return [_parted(text[said.end() :], said[1], 1)]
    return [_parted(text, sign, 0) for sign in SIGNS]


def _parted(text: str, sign: str, above: int) -> FileSheet:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True)
    lines: list[SheetLine] = []
    broken: tuple[tuple[int, str], ...] = ()
    try:
        lines.extend(SheetLine(reader.line_num + above, tuple(cells)) for cells in reader)  # those before a broken one
    except csv.Error as error:
        broken = ((reader.line_num + above, f"this is not CSV ({error})"),)
    return FileSheet(f"cells parted by {SIGNS[sign]}", tuple(lines), broken)
