"""The sheets of an .xlsx workbook as rows of text. Nothing is taken on trust: sizes first, and no entities."""

from __future__ import annotations

import io
from datetime import date, datetime, time
from typing import TYPE_CHECKING, Any

from quizzer.bankfiles.sheet import FileSheet, NoTable, SheetLine
from quizzer.bankfiles.zips import Unsafe, declared, declares, safe_contents

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

MOST_ROWS, MOST_COLUMNS = 50_000, 500
_BROKEN = "this workbook cannot be read: open it in a spreadsheet and save it as .xlsx or CSV"


def sheets_of(content: bytes) -> list[FileSheet]:
    """Every sheet that shows and has something in it. Raises NoTable."""
    from openpyxl import load_workbook

    try:
        _refuse_entities(safe_contents(content))
        shown = load_workbook(io.BytesIO(content), read_only=True, data_only=True)
        meant = load_workbook(io.BytesIO(content), read_only=True)
        found = [
            _sheet(one, other)
            for one, other in zip(shown.worksheets, meant.worksheets, strict=True)
            if one.sheet_state == "visible"
        ]
    except (NoTable, Unsafe):
        raise
    except Exception:  # noqa: BLE001  the library raises whatever a broken file makes it trip over
        raise NoTable(1, _BROKEN) from None
    return [sheet for sheet in found if sheet.lines]


def _refuse_entities(files: Mapping[str, bytes]) -> None:
    """Refuse a document type in any part, for a workbook says itself which of its files are XML."""
    if name := next((name for name, text in files.items() if declares(text)), ""):
        raise declared(name)


def _sheet(shown: Any, meant: Any) -> FileSheet:
    """The lines of a sheet: what its formulas came to, from the one workbook, where the other has a formula."""
    lines = []
    for number, (values, formulas) in enumerate(zip(_rows(shown), _rows(meant), strict=True), 1):
        for value, formula in zip(values, formulas, strict=True):
            if value is None and formula is not None:
                raise NoTable(number, "a formula here has no value in the file: open it in a spreadsheet and save it")
        cells = tuple(map(_text, values))
        if any(cells):
            lines.append(SheetLine(number, cells))
    return FileSheet(f"sheet {shown.title!r}", _squared(lines))


def _rows(sheet: Any) -> Iterator[tuple[object, ...]]:
    sheet.reset_dimensions()  # a file may say any size
    bounds = {"max_row": MOST_ROWS + 1, "max_col": MOST_COLUMNS + 1}
    for number, row in enumerate(sheet.iter_rows(values_only=True, **bounds), 1):
        if number > MOST_ROWS or any(cell is not None for cell in row[MOST_COLUMNS:]):
            raise NoTable(
                number, f"a sheet has more than {MOST_ROWS:,} rows or {MOST_COLUMNS} columns: split the table"
            )
        yield row[:MOST_COLUMNS]


def _squared(lines: list[SheetLine]) -> tuple[SheetLine, ...]:
    """The lines at one length, that of the longest to its last cell with something in it."""
    wide = max((at for line in lines for at, cell in enumerate(line.cells, 1) if cell), default=0)
    return tuple(line._replace(cells=(*line.cells, *[""] * wide)[:wide]) for line in lines)


def _text(value: object) -> str:
    """A cell as a person sees it: a whole number without its point."""
    match value:
        case None:
            return ""
        case float() if value.is_integer():
            return str(int(value))
        case datetime() | date() | time():
            return value.isoformat()
        case _:
            return str(value)
