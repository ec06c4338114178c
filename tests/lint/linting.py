"""Lint of a bank text that was never on a disk: codes with their lines."""

from collections.abc import Iterable

from quizzer.lint.catalogue import is_warning
from quizzer.lint.overrides import accepted
from quizzer.lint.placing import placed
from quizzer.lint.rule import Context
from quizzer.lint.rules import examine
from quizzer.lint.starts import start
from tests.banktext import read

SLIPS = (
    "wrong-component",
    "shared-equally",
    "wrong-ratio",
    "doubled",
    "divided-by-three",
    "subtracted-for-added",
    "no-correction",
    "correction-wrong-way",
    "four-hundred-for-230",
    "old-voltage",
    "wrong-voltage",
    "squared-for-plain",
    "parallel-for-series",
    "factor-twice",
    "lost-kilo",
)
CONTEXT = Context(slips=SLIPS, terms=frozenset({"RCD", "MCB"}), words=frozenset({"not", "only"}))


def changed(kind: str, *changes: tuple[str, str]) -> str:
    """The starting file of a kind with some of its text replaced; each old text stands there just once."""
    text = start(kind)
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def lint(text: str, context: Context = CONTEXT) -> list[tuple[str, int]]:
    """Code and line of every lint finding of a text that reads without a complaint."""
    entries, complaints = read(text)
    assert not complaints, complaints
    found = [one for entry in entries for one in examine(entry, context)]
    issues = {placed(one, text) for one in accepted(entries, found, is_warning)}
    return sorted((issue.code, issue.place.line) for issue in issues)


def codes(text: str, context: Context = CONTEXT) -> list[str]:
    """The codes alone, each once."""
    return unique(code for code, _ in lint(text, context))


def unique(codes: Iterable[str]) -> list[str]:
    """Each code once, in order."""
    return sorted(set(codes))
