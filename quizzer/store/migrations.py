"""How the tables came to be, step by step. A step that was ever released is never edited; a new one is added.

Each step runs in a transaction of its own together with the note that it ran, so a store is at one version or
the next and never between. The text below is SQLite's; PostgreSQL gets the same with text compared by bytes.
"""

from __future__ import annotations

import re
from typing import Final, NamedTuple


class Migration(NamedTuple):
    """The step to version `number`."""

    number: int
    statements: tuple[str, ...]

    def on(self, dialect: str) -> tuple[str, ...]:
        """The statements as `dialect` wants them."""
        if dialect == "sqlite":
            return self.statements
        return tuple(re.sub(r"\bTEXT\b", 'TEXT COLLATE "C"', statement) for statement in self.statements)


_FIRST = (
    """CREATE TABLE meta (
        "key" TEXT NOT NULL PRIMARY KEY,
        value TEXT NOT NULL
    )""",
    """CREATE TABLE trainee (
        id TEXT NOT NULL PRIMARY KEY,
        name TEXT NOT NULL,
        name_key TEXT NOT NULL UNIQUE,
        exam_day TEXT,
        added_at TEXT NOT NULL,
        CONSTRAINT trainee_id CHECK (length(id) BETWEEN 1 AND 100),
        CONSTRAINT trainee_name CHECK (length(name) BETWEEN 1 AND 100),
        CONSTRAINT trainee_name_key CHECK (length(name_key) BETWEEN 1 AND 400),
        CONSTRAINT trainee_exam_day CHECK (length(exam_day) BETWEEN 10 AND 10),
        CONSTRAINT trainee_added_at CHECK (length(added_at) BETWEEN 27 AND 27)
    )""",
    """CREATE TABLE memory (
        trainee TEXT NOT NULL REFERENCES trainee (id),
        entry TEXT NOT NULL,
        topic TEXT NOT NULL,
        ease INTEGER NOT NULL,
        repetition INTEGER NOT NULL,
        interval_days INTEGER NOT NULL,
        last_day TEXT NOT NULL,
        due_day TEXT NOT NULL,
        owed INTEGER NOT NULL,
        answered_at TEXT NOT NULL,
        PRIMARY KEY (trainee, entry),
        CONSTRAINT memory_entry CHECK (length(entry) BETWEEN 1 AND 200),
        CONSTRAINT memory_topic CHECK (length(topic) BETWEEN 1 AND 100),
        CONSTRAINT memory_last_day CHECK (length(last_day) BETWEEN 10 AND 10),
        CONSTRAINT memory_due_day CHECK (length(due_day) BETWEEN 10 AND 10),
        CONSTRAINT memory_answered_at CHECK (length(answered_at) BETWEEN 27 AND 27),
        CONSTRAINT memory_ease CHECK (ease >= 130),
        CONSTRAINT memory_repetition CHECK (repetition >= 1),
        CONSTRAINT memory_interval_days CHECK (interval_days >= 1),
        CONSTRAINT memory_owed CHECK (owed BETWEEN 0 AND 2),
        CONSTRAINT memory_due_after_last CHECK (due_day >= last_day)
    )""",
    "CREATE INDEX memory_due ON memory (trainee, due_day, entry)",
    """CREATE TABLE review (
        id TEXT NOT NULL PRIMARY KEY,
        trainee TEXT NOT NULL REFERENCES trainee (id),
        entry TEXT NOT NULL,
        topic TEXT NOT NULL,
        seed BIGINT NOT NULL,
        digest TEXT NOT NULL,
        asked TEXT NOT NULL,
        reply TEXT NOT NULL,
        was_right INTEGER NOT NULL,
        was_rounded INTEGER NOT NULL,
        slip TEXT,
        confidence TEXT,
        quality INTEGER NOT NULL,
        was_drill INTEGER NOT NULL,
        answered_at TEXT NOT NULL,
        day TEXT NOT NULL,
        seconds BIGINT NOT NULL,
        CONSTRAINT review_id CHECK (length(id) BETWEEN 1 AND 100),
        CONSTRAINT review_entry CHECK (length(entry) BETWEEN 1 AND 200),
        CONSTRAINT review_topic CHECK (length(topic) BETWEEN 1 AND 100),
        CONSTRAINT review_digest CHECK (length(digest) BETWEEN 1 AND 128),
        CONSTRAINT review_asked CHECK (length(asked) BETWEEN 0 AND 100000),
        CONSTRAINT review_reply CHECK (length(reply) BETWEEN 0 AND 4000),
        CONSTRAINT review_slip CHECK (length(slip) BETWEEN 1 AND 100),
        CONSTRAINT review_answered_at CHECK (length(answered_at) BETWEEN 27 AND 27),
        CONSTRAINT review_day CHECK (length(day) BETWEEN 10 AND 10),
        CONSTRAINT review_seed CHECK (seed >= 0),
        CONSTRAINT review_was_right CHECK (was_right IN (0, 1)),
        CONSTRAINT review_was_rounded CHECK (was_rounded IN (0, 1)),
        CONSTRAINT review_was_drill CHECK (was_drill IN (0, 1)),
        CONSTRAINT review_confidence CHECK (confidence IN ('certain', 'fairly sure', 'guessing')),
        CONSTRAINT review_quality CHECK (quality BETWEEN 0 AND 5),
        CONSTRAINT review_seconds CHECK (seconds >= 0)
    )""",
    "CREATE INDEX review_history ON review (trainee, answered_at, id)",
    """CREATE TABLE challenge (
        trainee TEXT NOT NULL REFERENCES trainee (id),
        entry TEXT NOT NULL,
        raised_at TEXT NOT NULL,
        reason TEXT NOT NULL,
        digest TEXT NOT NULL,
        PRIMARY KEY (trainee, entry, raised_at),
        CONSTRAINT challenge_entry CHECK (length(entry) BETWEEN 1 AND 200),
        CONSTRAINT challenge_digest CHECK (length(digest) BETWEEN 1 AND 128),
        CONSTRAINT challenge_reason CHECK (length(reason) BETWEEN 0 AND 2000),
        CONSTRAINT challenge_raised_at CHECK (length(raised_at) BETWEEN 27 AND 27)
    )""",
)

_PAPERS = (
    """CREATE TABLE trainee_group (
        name_key TEXT NOT NULL PRIMARY KEY,
        name TEXT NOT NULL,
        added_at TEXT NOT NULL,
        CONSTRAINT trainee_group_name_key CHECK (length(name_key) BETWEEN 1 AND 400),
        CONSTRAINT trainee_group_name CHECK (length(name) BETWEEN 1 AND 100),
        CONSTRAINT trainee_group_added_at CHECK (length(added_at) BETWEEN 27 AND 27)
    )""",
    """CREATE TABLE group_member (
        group_key TEXT NOT NULL REFERENCES trainee_group (name_key),
        trainee TEXT NOT NULL REFERENCES trainee (id),
        PRIMARY KEY (group_key, trainee)
    )""",
    """CREATE TABLE paper (
        id TEXT NOT NULL PRIMARY KEY,
        record TEXT NOT NULL,
        kept INTEGER NOT NULL,
        CONSTRAINT paper_id CHECK (length(id) BETWEEN 1 AND 100),
        CONSTRAINT paper_record CHECK (length(record) BETWEEN 1 AND 20000000),
        CONSTRAINT paper_kept CHECK (kept >= 1)
    )""",
    """CREATE TABLE sitting (
        trainee TEXT NOT NULL REFERENCES trainee (id),
        paper TEXT NOT NULL REFERENCES paper (id),
        form TEXT NOT NULL,
        answers TEXT NOT NULL,
        flags TEXT NOT NULL,
        place INTEGER NOT NULL,
        seconds BIGINT NOT NULL,
        allowed BIGINT NOT NULL,
        turn INTEGER NOT NULL,
        started_at TEXT NOT NULL,
        submitted_at TEXT,
        PRIMARY KEY (trainee, paper, form),
        CONSTRAINT sitting_form CHECK (length(form) BETWEEN 1 AND 20),
        CONSTRAINT sitting_answers CHECK (length(answers) BETWEEN 1 AND 400),
        CONSTRAINT sitting_flags CHECK (length(flags) BETWEEN 1 AND 400),
        CONSTRAINT sitting_started_at CHECK (length(started_at) BETWEEN 27 AND 27),
        CONSTRAINT sitting_submitted_at CHECK (length(submitted_at) BETWEEN 27 AND 27),
        CONSTRAINT sitting_place CHECK (place >= 0),
        CONSTRAINT sitting_seconds CHECK (seconds >= 0),
        CONSTRAINT sitting_allowed CHECK (allowed >= 1),
        CONSTRAINT sitting_turn CHECK (turn >= 0)
    )""",
    """CREATE TABLE script (
        trainee TEXT NOT NULL REFERENCES trainee (id),
        paper TEXT NOT NULL REFERENCES paper (id),
        form TEXT NOT NULL,
        answers TEXT NOT NULL,
        origin TEXT NOT NULL,
        marked_at TEXT NOT NULL,
        PRIMARY KEY (trainee, paper, form),
        CONSTRAINT script_form CHECK (length(form) BETWEEN 1 AND 20),
        CONSTRAINT script_answers CHECK (length(answers) BETWEEN 1 AND 400),
        CONSTRAINT script_origin CHECK (length(origin) BETWEEN 1 AND 20),
        CONSTRAINT script_marked_at CHECK (length(marked_at) BETWEEN 27 AND 27)
    )""",
)

_STUDIES_FOR = (
    """ALTER TABLE trainee ADD COLUMN blueprint TEXT
        CONSTRAINT trainee_blueprint CHECK (length(blueprint) BETWEEN 1 AND 400)""",
    """ALTER TABLE trainee ADD COLUMN minutes_a_day INTEGER
        CONSTRAINT trainee_minutes_a_day CHECK (minutes_a_day BETWEEN 1 AND 1440)""",
)

_EXERCISES = (
    """ALTER TABLE review ADD COLUMN exercise TEXT
        CONSTRAINT review_exercise CHECK (length(exercise) BETWEEN 1 AND 40)""",
)

_NO_EXAM = (
    """ALTER TABLE trainee ADD COLUMN no_exam INTEGER
        CONSTRAINT trainee_no_exam CHECK (no_exam = 1)""",
)

MIGRATIONS: Final = (
    Migration(1, _FIRST),
    Migration(2, _PAPERS),
    Migration(3, _STUDIES_FOR),
    Migration(4, _EXERCISES),
    Migration(5, _NO_EXAM),
)
NEWEST: Final = MIGRATIONS[-1].number
