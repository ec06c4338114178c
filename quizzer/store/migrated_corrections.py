"""The step that made the table of corrections, as SQLite says it. Never edited."""

from __future__ import annotations

from typing import Final

CORRECTIONS: Final = (
    """CREATE TABLE correction (
        id TEXT NOT NULL PRIMARY KEY,
        number INTEGER NOT NULL,
        paper TEXT REFERENCES paper (id),
        trainee TEXT REFERENCES trainee (id),
        kind TEXT NOT NULL,
        about TEXT NOT NULL,
        was TEXT NOT NULL,
        becomes TEXT NOT NULL,
        who TEXT NOT NULL,
        reason TEXT NOT NULL,
        made_at TEXT NOT NULL,
        undoes TEXT,
        CONSTRAINT correction_id CHECK (length(id) BETWEEN 1 AND 100),
        CONSTRAINT correction_kind CHECK (length(kind) BETWEEN 1 AND 20),
        CONSTRAINT correction_about CHECK (length(about) BETWEEN 1 AND 400),
        CONSTRAINT correction_was CHECK (length(was) BETWEEN 0 AND 20000000),
        CONSTRAINT correction_becomes CHECK (length(becomes) BETWEEN 0 AND 20000000),
        CONSTRAINT correction_who CHECK (length(who) BETWEEN 1 AND 100),
        CONSTRAINT correction_reason CHECK (length(reason) BETWEEN 0 AND 2000),
        CONSTRAINT correction_made_at CHECK (length(made_at) BETWEEN 27 AND 27),
        CONSTRAINT correction_undoes CHECK (length(undoes) BETWEEN 1 AND 100),
        CONSTRAINT correction_number CHECK (number >= 1)
    )""",
)
