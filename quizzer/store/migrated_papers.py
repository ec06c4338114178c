"""The steps that made the tables of groups, papers and scripts, as SQLite says them. Never edited."""

from __future__ import annotations

from typing import Final

PAPERS: Final = (
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
