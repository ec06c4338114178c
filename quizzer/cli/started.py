"""How this person started the program: commands are named so, to be typed again as they stand."""

from __future__ import annotations

import os

# The options that set up completion in a shell, and the variable by which a shell asks for words.
COMPLETION = ("--install-completion", "--show-completion")
ASKED_BY = "_QUIZZER_COMPLETE"
VERSION = "0.1.0"  # as pyproject.toml says it; reading that of an installed package costs every start a tenth


def program() -> str:
    """What starts the program here: what the starter of a checkout says, or its name."""
    return os.environ.get("QUIZZER_STARTED_AS") or "quizzer"


def as_started(words: str) -> str:
    """The words with each command of the program as it is started here.

    >>> as_started("`quizzer topics` shows them all")
    '`quizzer topics` shows them all'
    """
    return words.replace("`quizzer ", f"`{program()} ")
