"""Checking bank files: reading complaints and lint findings together, by file and line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from quizzer.bank.entries import Entry
from quizzer.bankfiles.shelf import Loaded, Shelf
from quizzer.errors import Issue, NotFound
from quizzer.lint.rule import Context
from quizzer.lint.rules import BANK_RULES, RULES

Progress = Callable[[int, int], None]  # files done, files in all


@dataclass(frozen=True, slots=True)
class Findings:
    """How many entries were looked at, and every finding in the order of the files."""

    entries: int
    issues: tuple[Issue, ...]


def check(shelf: Shelf, paths: Iterable[Path], progress: Progress) -> Findings:
    """Check the files and folders named, or the whole bank when none is. Raises NotFound for a path that is not there."""
    files = _files(shelf, list(paths))
    context = Context(shelf.slips(), shelf.terms())
    issues: list[Issue] = []
    entries: list[Entry] = []
    for done, path in enumerate(files):
        progress(done, len(files))
        loaded = shelf.load(path)
        entries += loaded.entries
        issues += _of_file(loaded, context)
    shelf.tables()
    issues += shelf.issues
    issues += [issue for rule in BANK_RULES for issue in rule(entries, context)]
    progress(len(files), len(files))
    return Findings(len(entries), tuple(sorted(set(issues), key=lambda issue: (issue.place, issue.code, issue.key))))


def _of_file(loaded: Loaded, context: Context) -> Iterator[Issue]:
    yield from loaded.issues
    for entry in loaded.entries:
        for rule in RULES:
            yield from (issue for issue in rule(entry, context) if not _overridden(entry, issue))


def _overridden(entry: Entry, issue: Issue) -> bool:
    # Only a warning can be accepted with a reason; an error has to be mended.
    return issue.warning and issue.code in entry.head.overrides


def _files(shelf: Shelf, paths: list[Path]) -> list[Path]:
    if not paths:
        return shelf.files()
    found = [file for path in paths for file in _below(shelf, path.resolve())]
    return [file for file, _ in Counter(found).items()]


def _below(shelf: Shelf, path: Path) -> list[Path]:
    if not path.exists():
        raise NotFound(f"no such file or folder {str(path)!r}", mend="name a bank file or a folder of them")
    known = shelf.files()
    return [file for file in known if file == path or path in file.parents] or ([path] if path.is_file() else [])
