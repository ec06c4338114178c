"""CSV that a spreadsheet shows and never runs: quoted as RFC 4180 says, with formula cells made into text."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def csv_bytes(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    r"""The table in UTF-8 with a mark at its start, by which spreadsheets know it; lines end in CR LF.

    >>> csv_bytes(["name", "mark"], [["=1+1", 7], ["Ada, B", -2]]).decode("utf-8-sig")
    'name,mark\r\n\'=1+1,7\r\n"Ada, B",-2\r\n'
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([safe(head) for head in heads])
    writer.writerows([safe(cell) for cell in row] for row in rows)
    return out.getvalue().encode("utf-8-sig")


def safe(cell: object) -> str:
    """The cell as text. A text that a spreadsheet would take for a formula gets an apostrophe in front; numbers do not.

    >>> safe("@SUM(A1)"), safe("plain"), safe(-0.25), safe(None)
    ("'@SUM(A1)", 'plain', '-0.25', '')
    """
    if cell is None:
        return ""
    text = str(cell).replace("\x00", "")
    return f"'{text}" if isinstance(cell, str) and text.startswith(_FORMULA) else text


def unguarded(cell: str) -> str:
    """A cell as it was before `safe`: for reading back what a person has filled in.

    >>> unguarded("'=x"), unguarded("'tis"), unguarded("plain")
    ('=x', "'tis", 'plain')
    """
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(_FORMULA) else cell
