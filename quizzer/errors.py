"""What can go wrong, in three kinds.

An `Issue` is a finding in a bank file: a frozen value, never raised, so that an author gets all of them at once.
A `QuizzerError` refuses what somebody asked for; it says what and where, and always how to mend it:

    QuizzerError
      NotFound      no such entry, trainee, topic, code
      Refused       asked for something that may not be done
      UsageError    the command line does not make sense
      BankError     a bank file cannot be used; carries its issues
      StoreError    the store is missing, locked, damaged or too new

Anything else is a bug and ends in a traceback report.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple


class Place(NamedTuple):
    """A line of a bank file; line 0 means the file as a whole."""

    path: str
    line: int = 0

    def __str__(self) -> str:
        return f"{self.path}:{self.line}" if self.line else self.path


class Issue(NamedTuple):
    """One finding: its code, where it is, which key, what is wrong and how to mend it."""

    code: str
    place: Place
    key: str
    what: str
    mend: str
    warning: bool = False

    def __str__(self) -> str:
        return f"{self.place}: {self.code} {self.key}: {self.what} ({self.mend})"


class QuizzerError(Exception):
    """A refusal. `str()` is one sentence of what and where; `mend` says how to put it right."""

    def __init__(self, message: str, *, mend: str) -> None:
        super().__init__(message)
        self.message = message
        self.mend = mend


class NotFound(QuizzerError):
    """There is no such entry, trainee, topic or code."""


class Refused(QuizzerError):
    """What was asked for may not, or cannot, be done."""


class UsageError(QuizzerError):
    """The command line does not make sense."""


class StoreError(QuizzerError):
    """The store cannot be read or written."""


class BankError(QuizzerError):
    """A bank file cannot be used. `issues` holds every finding."""

    def __init__(self, issues: Sequence[Issue]) -> None:
        first = issues[0]
        more = f" (and {len(issues) - 1} more)" if len(issues) > 1 else ""
        super().__init__(f"{first.place}: {first.key}: {first.what}{more}", mend=first.mend)
        self.issues = tuple(issues)
