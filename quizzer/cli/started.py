"""How this person started the program: commands are named so, to be typed again as they stand."""

from __future__ import annotations

import os


def program() -> str:
    """What starts the program here: what the starter of a checkout says, or its name."""
    return os.environ.get("QUIZZER_STARTED_AS") or "quizzer"


def as_started(words: str) -> str:
    """The words with each command of the program as it is started here.

    >>> as_started("`quizzer topics` shows them all")
    '`quizzer topics` shows them all'
    """
    return words.replace("`quizzer ", f"`{program()} ")
