"""The text of quizzer/store/compiled.py: every statement of the store, compiled for SQLite and for PostgreSQL."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from sqlalchemy import Executable
from sqlalchemy.dialects.postgresql.psycopg import PGDialect_psycopg
from sqlalchemy.dialects.sqlite.pysqlite import SQLiteDialect_pysqlite
from sqlalchemy.engine import Dialect

from quizzer.store.building import Both
from quizzer.store.statements import NAMED
from quizzer.store.tables import HELD

FILE = Path(__file__).resolve().parent.parent / "quizzer" / "store" / "compiled.py"
DIALECTS: dict[str, Dialect] = {"sqlite": SQLiteDialect_pysqlite(paramstyle="named"), "postgresql": PGDialect_psycopg()}
HOLES = {"sqlite": r":{}\b", "postgresql": r"%\({}\)s"}  # where a value goes
HEAD = '''"""Every statement of the store as SQL text. Written by scripts/statements from the models and the statements.

A session runs these through the driver: opening the toolkit that made them takes longer than the whole session's
start. Do not edit: change the models or the statements and run the script; a test compares.
"""
# fmt: off

from __future__ import annotations

from typing import Final

from quizzer.store.wording import StatementText

'''


def text_of(statement: Executable | Both, kind: str) -> str:
    """A statement as text for one database, on one line, its constants written in."""
    one: Any = statement.of(kind) if isinstance(statement, Both) else statement
    compiled = one.compile(dialect=DIALECTS[kind])
    text = re.sub(r"\s+", " ", str(compiled))
    for name, value in compiled.params.items():
        if value is not None:
            text = re.sub(HOLES[kind].format(name), f"{value:d}", text)
    return text


def module() -> str:
    """The whole text of compiled.py."""
    return HEAD + "".join(f"{line}\n" for line in _lines())


def _lines() -> Iterator[str]:
    yield "# The tables that hold data, in the order in which they may be filled, with their columns."
    yield "HELD: Final = {"
    yield from (f"    {_quoted(table.name)}: {_columns(table.columns.keys())}," for table in HELD)
    yield "}"
    yield ""
    for name, value in NAMED.items():
        if isinstance(value, dict):
            yield f"{name}: Final = {{"
            yield from (f"    {_quoted(table)}: {_written(one)}," for table, one in value.items())
            yield "}"
        else:
            yield f"{name}: Final = {_written(value)}"


def _written(statement: Executable | Both) -> str:
    texts = [text_of(statement, kind) for kind in DIALECTS]
    return f"StatementText({', '.join(map(_quoted, texts))})"


def _columns(names: list[str]) -> str:
    return f"({', '.join(map(_quoted, names))}{',' if len(names) == 1 else ''})"


def _quoted(text: str) -> str:
    return repr(text) if '"' in text else f'"{text}"'


if __name__ == "__main__":
    FILE.write_text(module(), encoding="utf-8")
    sys.stdout.write(f"written: {FILE}\n")
