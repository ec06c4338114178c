"""The steps that made the tables of trainees, reviews and memories, as SQLite says them. Never edited."""

from __future__ import annotations

from typing import Final

FIRST: Final = (
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

STUDIES_FOR: Final = (
    """ALTER TABLE trainee ADD COLUMN blueprint TEXT
        CONSTRAINT trainee_blueprint CHECK (length(blueprint) BETWEEN 1 AND 400)""",
    """ALTER TABLE trainee ADD COLUMN minutes_a_day INTEGER
        CONSTRAINT trainee_minutes_a_day CHECK (minutes_a_day BETWEEN 1 AND 1440)""",
)

EXERCISES: Final = (
    """ALTER TABLE review ADD COLUMN exercise TEXT
        CONSTRAINT review_exercise CHECK (length(exercise) BETWEEN 1 AND 40)""",
)

NO_EXAM: Final = (
    """ALTER TABLE trainee ADD COLUMN no_exam INTEGER
        CONSTRAINT trainee_no_exam CHECK (no_exam = 1)""",
)

PHONES: Final = (
    """ALTER TABLE review ADD COLUMN device TEXT
        CONSTRAINT review_device CHECK (length(device) BETWEEN 8 AND 64)""",
    """ALTER TABLE review ADD COLUMN sequence BIGINT
        CONSTRAINT review_sequence CHECK (sequence >= 0)""",
    """ALTER TABLE review ADD COLUMN claimed INTEGER
        CONSTRAINT review_claimed CHECK (claimed IN (0, 1))""",
    "CREATE INDEX review_of_entry ON review (trainee, entry)",
)
