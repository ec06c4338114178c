"""The pages of diagnoses played for marks: what a set is, and how it ended."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Gap, Paragraph, Points
from quizzer.blocks.words import NOT_PASSED, PASSED, capital, count, minutes_words
from quizzer.workflows.faults.assessing import Assessment, Sat

_RULES = (
    "A fault is to be found in each, told from all else by your readings, mended, proved again and handed over.",
    "What is unsafe ends the exercise, as it ends an assessment: nothing is begun again.",
    "Leave one with q: it is marked as it stands. Each mark is kept at once; what was not begun has none.",
)
_AIM = "Marks of exercises in this program: your assessor decides whether you are competent."


def set_start_page(found: Assessment) -> Page:
    """How many exercises in how many minutes, and what counts."""
    wishes = found.wishes
    much = f"{capital(count(wishes.many, 'exercise'))} in {minutes_words(wishes.minutes)}, level {wishes.level}"
    return Page(_title(found), [Paragraph(f"{much}."), *map(Paragraph, _RULES)])


def exercise_words(found: Assessment, sat: Sat) -> str:
    """The mark of the exercise that has just ended, with its number, in a line."""
    return f"{len(found.done)} of {found.wishes.many}: {PASSED if sat.marked.passed else sat.marked.mark}"


def set_end_page(found: Assessment) -> Page:
    """Each exercise with its mark and why, and the mark of the set."""
    beside = f"set {found.wishes.seed}, level {found.wishes.level}" if found.done else ""
    return Page(_title(found), [*_end(found)], beside)


def _title(found: Assessment) -> str:
    return f"Fault finding for marks: {found.trainee.name}"


def _end(found: Assessment) -> Iterator[Block]:
    if not found.done:
        yield Paragraph("No exercise was played.")
        return
    played, wanted = len(found.done), found.wishes.many
    words = f"{found.passed} of {played} passed" + (f"; {wanted - played} not begun" if played < wanted else "")
    yield Paragraph(f"{words}.", "right" if found.passed == wanted else "key")
    yield Points([f"{capital(each.title)}: {_mark(each)}. {_tests(each)}." for each in found.done], ordered=True)
    yield from _unkept(found)
    yield Gap()
    yield Paragraph(_AIM)


def _mark(sat: Sat) -> str:
    if sat.marked.passed:
        return PASSED
    return f"{NOT_PASSED}, {sat.marked.mark}: {sat.marked.why}"


def _tests(sat: Sat) -> str:
    used = count(sat.tests, "test")
    return f"{capital(used)} before it was named or left; the best player needs {sat.best}; seed {sat.seed}"


def _unkept(found: Assessment) -> Iterator[Block]:
    shapes = sorted({each.shape for each in found.done if not each.kept})
    if shapes:
        yield Paragraph(f"this bank asks nothing about {', '.join(shapes)}: those marks are not kept.", lead="Note")
