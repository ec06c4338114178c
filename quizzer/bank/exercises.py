"""The names of the exercises that a worked solution gives, and how one is written: `wrong-line`, `next-line:2`."""

from __future__ import annotations

import re

from quizzer.errors import UsageError
from quizzer.values import NamedTuple

MISSING_LINE, MISSING_LINES, NEXT_LINE = "missing-line", "missing-lines", "next-line"
WRONG_LINE, WRONG_LINE_OR_NONE = "wrong-line", "wrong-line-or-none"
FIRST_STEP, ABOUT_HOW_MUCH = "first-step", "about-how-much"
# By name: what is asked.
EXERCISES = {
    MISSING_LINE: "the working with one line left open",
    MISSING_LINES: "the working with two lines left open, one after the other",
    NEXT_LINE: "the working up to a line: which line comes next",
    WRONG_LINE: "a working with one mistake in it: which line, and what belongs there",
    WRONG_LINE_OR_NONE: "a working that may have one mistake in it: which line, if any, and what belongs there",
    FIRST_STEP: "which of several lines begins the working",
    ABOUT_HOW_MUCH: "the size of the answer, before any working",
}
_WRITTEN = re.compile(r"(?P<name>[a-z-]+)(?::(?P<line>[1-9]))?")
FINDING = frozenset({WRONG_LINE, WRONG_LINE_OR_NONE})
LONG, LONGER = 2, 3  # lines from which a working has one, or two, to leave out
LINED = FINDING | {MISSING_LINE, MISSING_LINES, NEXT_LINE}


class SumExercise(NamedTuple):
    """What is asked of a working, and of which line of it, from 1; with line 0 the seed says which."""

    name: str
    line: int = 0

    @property
    def text(self) -> str:
        """The exercise as it is written."""
        return f"{self.name}:{self.line}" if self.line else self.name


def read_exercise(text: str) -> SumExercise:
    """The exercise of a text. Raises UsageError, naming all there are.

    >>> read_exercise("next-line:2")
    SumExercise(name='next-line', line=2)
    """
    found = _WRITTEN.fullmatch(text)
    if not found or found["name"] not in EXERCISES or (found["line"] and found["name"] not in LINED):
        raise UsageError(f"{text[:60]!r} is no form of a question", mend=f"write one of {', '.join(EXERCISES)}")
    return SumExercise(found["name"], int(found["line"] or 0))
