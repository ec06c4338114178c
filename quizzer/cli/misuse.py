"""A command line that makes no sense, in words for whoever typed it: the option parser speaks to programmers."""

from __future__ import annotations

import re

from typer.exceptions import TyperException

_WORDS = (
    (r"^Invalid value for '([^']+)': ", r"\1: "),
    (r"is not a valid int( range)?$", "is not a whole number"),
    (r"is not a valid float( range)?$", "is not a number"),
    (r"is not in the range ([-\d.]+)<=x<=([-\d.]+)$", r"is not from \1 to \2"),
    (r"is not in the range x>=([-\d.]+)$", r"is below \1"),
    (r"^Got unexpected extra arguments?(?:\(s\))? \((.*)\)$", r"no room for '\1'"),
)


def misuse(error: TyperException) -> tuple[str, str]:
    """What is wrong, and the command whose --help shows what it takes."""
    words = error.format_message().rstrip(".")
    for said, better in _WORDS:
        words = re.sub(said, better, words)
    command = getattr(getattr(error, "ctx", None), "command_path", "quizzer")
    return words, f"`{command} --help` shows {'the commands' if _has_commands(error) else 'what it takes'}"


def is_help(error: TyperException) -> bool:
    """Whether the error is no error but the page of commands, asked for by typing none."""
    return error.format_message().startswith("Usage:")


def _has_commands(error: TyperException) -> bool:
    return bool(getattr(getattr(getattr(error, "ctx", None), "command", None), "commands", None))
