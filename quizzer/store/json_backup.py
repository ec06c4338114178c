"""A backup as lines of JSON: a head, one line a row, and an end with counts and a checksum over all before it.

A server's store is copied so; being text, it goes into any database, and a truncated or altered file shows.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any, BinaryIO, Final

from quizzer.errors import StoreError
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.info import counted
from quizzer.store.migrations import NEWEST
from quizzer.store.opening import prepare
from quizzer.store.values import Counts

HEAD: Final = b'{"quizzer"'
LONGEST: Final = 40_000_000  # bytes of a line: the largest record of a paper has half of that
_KINDS: Final = (str, int, type(None))


def write_lines(wire: Connection, out: BinaryIO) -> None:
    """Write every row of every table, all as of one moment."""
    check = hashlib.sha256()
    with wire.transaction("read"):
        for line in _lines(wire):
            check.update(line)
            out.write(line)
    out.write(_line({"sha256": check.hexdigest()}))


def read_lines(path: Path, wire: Connection) -> None:
    """Fill an empty SQLite store from such lines. Raises StoreError for anything that is not whole."""
    with path.open("rb") as lines:
        try:
            _read(lines, wire)
        except (ValueError, KeyError, TypeError, AttributeError, OverflowError, RecursionError) as error:
            raise StoreError(f"it is damaged or was altered ({error})", mend="try another backup") from None


def _lines(wire: Connection) -> Iterator[bytes]:
    yield _line({"quizzer": "backup", "version": NEWEST})
    for table, names in sql.HELD.items():
        for row in wire.stream(sql.ROWS[table]):
            yield _line({"table": table, "row": dict(zip(names, row, strict=True))})
    yield _line({"counts": counted(wire)._asdict()})


def _line(value: object) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def _read(lines: BinaryIO, wire: Connection) -> None:
    check = hashlib.sha256()
    head = _checked(lines.readline(LONGEST + 1), check)
    version = int(head["version"])
    if version > NEWEST:
        raise StoreError(
            f"it has version {version}, and this program knows versions up to {NEWEST}", mend="update quizzer"
        )
    prepare(wire, create=True, upto=version)
    with wire.transaction("write"):
        _rows(lines, check, wire)
        if json.loads(lines.readline(LONGEST) or b"{}").get("sha256") != check.hexdigest():
            raise ValueError("its checksum is not that of its lines")
        if lines.read(1):
            raise ValueError("something follows after its end")
    prepare(wire, create=True)


def _rows(lines: BinaryIO, check: Any, wire: Connection) -> None:
    """Insert row after row up to the line of counts, which must be theirs."""
    counted_as = dict(zip(sql.HELD, Counts._fields, strict=True))
    seen = dict.fromkeys(counted_as.values(), 0)
    inserts = {table: _insert(wire, table) for table in sql.HELD}
    for line in iter(lambda: lines.readline(LONGEST + 1), b""):
        value = _checked(line, check)
        if "counts" in value:
            # An older backup counts no rows of the tables that came later.
            if {**dict.fromkeys(seen, 0), **value["counts"]} != seen:
                raise ValueError("rows are missing")
            return
        columns, insert = inserts[value["table"]]
        row = value["row"]
        if set(row) != columns or not all(type(cell) in _KINDS for cell in row.values()):
            raise ValueError(f"a row of {value['table']} has strange columns")
        wire.run(insert, row)
        seen[counted_as[value["table"]]] += 1
    raise ValueError("its end is missing")


def _insert(wire: Connection, table: str) -> tuple[set[str], str]:
    """The columns of a table as it is at this version, and the statement that adds a row to it."""
    columns = [row[1] for row in wire.run(f'PRAGMA table_info("{table}")').fetchall()]
    names = ", ".join(f'"{column}"' for column in columns)
    holes = ", ".join(f":{column}" for column in columns)
    # Every name in it is the table's own.
    return set(columns), f'INSERT INTO "{table}" ({names}) VALUES ({holes})'  # noqa: S608


def _checked(line: bytes, check: Any) -> dict[str, Any]:
    """The value of a line, which also goes into the checksum."""
    if len(line) > LONGEST:
        raise ValueError("a line is longer than any row")
    check.update(line)
    value = json.loads(line)
    if not isinstance(value, dict):
        raise TypeError("a line is not an object")
    return value
