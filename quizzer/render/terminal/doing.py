"""What to do next, worded as the command that does it."""

from __future__ import annotations

import re
import shlex

from quizzer.blocks.text import Do

_PLAIN = re.compile(r"[\w@%+=:,./-][\w@%+=:,./#-]*", re.ASCII)
_READ_INSIDE = re.compile(r'["$`\\!]')


def command(do: Do, program: str) -> str:
    r"""The command line, for whoever starts the program as `program`.

    >>> command(Do("paper report", ("mock",), (("person", "O'Neil"), ("items", True))), "quizzer")
    'quizzer paper report mock --person "O\'Neil" --items'
    """
    wishes = [
        f"--{name.replace('_', '-')}" + ("" if value is True else f" {_quoted(str(value))}")
        for name, value in do.wishes
    ]
    return " ".join([program, do.verb, *map(_quoted, do.to), *wishes])


def _quoted(text: str) -> str:
    """The text as a shell takes it: in double quotes where they will do, which every shell knows."""
    if _PLAIN.fullmatch(text):
        return text
    return shlex.quote(text) if _READ_INSIDE.search(text) else f'"{text}"'
