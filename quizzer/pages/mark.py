"""Marks of a paper in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Paragraph, Points, do
from quizzer.blocks.words import NOT_PASSED, PASSED, SET_APART, listed
from quizzer.marks.answers import as_good_as_absent
from quizzer.paper.record import Paper
from quizzer.workflows.papers.form_doubts import FormDoubt
from quizzer.workflows.papers.marking import MarkedScriptLine


def marks_page(paper: Paper, lines: Sequence[MarkedScriptLine], notes: Iterable[str]) -> Page:
    """Every mark, and what to do next; only the notes where nothing was marked."""
    told: list[Block] = [Paragraph(note) for note in notes]
    if not lines:
        return Page(f"Marked: {paper.title}", told, "nobody")
    new = sum(line.new for line in lines)
    report = (f"{new} new, {len(lines) - new} marked before. ", do("paper report", paper.id), " says what they mean.")
    pass_mark = f"pass mark {paper.pass_mark} of {lines[0].verdict.questions}"
    blocks = (Points([mark_words(line) for line in lines]), *told, Paragraph(report))
    return Page(f"Marked: {paper.title}", blocks, pass_mark)


def doubt_words(doubt: FormDoubt) -> str:
    """That a script fits another form's key, in words."""
    return (
        f"{doubt.name}: LOOK AT THE SHEET. By the key of form {doubt.form} {doubt.right} of {doubt.questions} are "
        f"right, by that of form {doubt.other} {doubt.right_by_other}. Chance does that less than once in a thousand "
        "scripts."
    )


def guesses_words(right: int, answered: int) -> str:
    """That all the scripts together fit the paper no better than guesses do, in words."""
    return (
        f"LOOK AT THE PAPER: {right} of all {answered} answers are right, as many as guesses would be. If these are "
        "answers to another paper, void each script, then mark them with theirs."
    )


def void_words(names: Sequence[str]) -> str:
    """That scripts count again that were void, in words."""
    return f"Void before, and counted again now: {listed(names)}. If that is not meant, void them once more."


def several_words(name: str, forms: Sequence[str]) -> str:
    """That somebody has scripts of several forms, in words."""
    return f"{name} has scripts of {len(forms)} forms now, {listed(forms)}: each counts as one of the group."


def mark_words(line: MarkedScriptLine) -> str:
    """One person's mark in words."""
    if line.absent:
        return f"{line.name}, form {line.form}: absent"
    verdict, left = line.verdict, f", {line.omitted} left out" if line.omitted else ""
    before = "" if line.new else " (marked before)"
    return f"{line.name}, form {line.form}: {verdict.right} of {verdict.questions}{left}: {_said(line)}{before}"


def _said(line: MarkedScriptLine) -> str:
    verdict = line.verdict
    if as_good_as_absent(verdict.questions - line.omitted, verdict.questions):
        return f"{SET_APART.lower()}: hardly anything answered"
    if not verdict.reaches_pass_mark:
        return f"{NOT_PASSED.lower()}: below the pass mark"
    return PASSED.lower() if verdict.sections_ok else f"{NOT_PASSED.lower()}: a section that must be all right is not"
