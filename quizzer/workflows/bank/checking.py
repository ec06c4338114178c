"""Checking bank files: reading complaints and lint findings together, by file and line."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from quizzer.bank.entries import Entry
from quizzer.bank.fields import Notes
from quizzer.bankfiles.blueprint_files import blueprint_of
from quizzer.bankfiles.shelf import NOT_TOPICS, Shelf
from quizzer.bankfiles.texts import glance
from quizzer.errors import Issue, NotFound
from quizzer.lint.catalogue import is_warning
from quizzer.lint.half_right import OverCautious, over_cautious
from quizzer.lint.overrides import accepted
from quizzer.lint.placing import placed
from quizzer.lint.rule import Context, Finding
from quizzer.lint.rules import BANK_RULES, LIST_RULES, examine

Progress = Callable[[int, int], None]  # files done, files in all

_SHARED = ("topics.toml", "slips.toml", "cautions.toml", "glossary.toml")
_LOWER_CASE = re.compile(r"(?<![A-Za-z])[a-z]+(?![A-Za-z])")


@dataclass(frozen=True, slots=True)
class Findings:
    """How many entries were looked at, and every finding in the order of the files.

    Of the whole bank also how many safety-critical entries hold an over-cautious wrong option.
    """

    entries: int
    issues: tuple[Issue, ...]
    over_cautious: OverCautious | None = None


@dataclass(frozen=True, slots=True)
class _Read:
    """A bank file as it was read."""

    text: str
    entries: tuple[Entry, ...]
    issues: tuple[Issue, ...]


def check(shelf: Shelf, paths: Iterable[Path], progress: Progress) -> Findings:
    """Check the files and folders named, or the whole bank when none is. Raises NotFound for a path that is not there.

    The whole bank is read either way: an entry may ask what another file asks already. What nobody uses is looked for
    only when the whole bank is checked and every entry could be read.
    """
    named = [path.resolve() for path in paths]
    wanted = files_of(shelf, named)
    bank = {path: _read(shelf, path) for path in dict.fromkeys([*shelf.files(), *wanted])}
    context = _context(shelf, bank.values())
    found = [*_of_entries(wanted, bank, context, progress), *_of_bank(bank, wanted, context, whole=not named)]
    entries = [entry for path in wanted for entry in bank[path].entries]
    lint = [_placed(shelf, bank, one) for one in accepted(entries, found, is_warning)]
    issues = {*shelf.issues, *_of_blueprints(shelf), *lint, *(issue for path in wanted for issue in bank[path].issues)}
    ordered = sorted(issues, key=lambda issue: (issue.place, issue.code, issue.key, issue.what))
    return Findings(len(entries), tuple(ordered), None if named else over_cautious(entries))


def _of_entries(wanted: list[Path], bank: dict[Path, _Read], context: Context, progress: Progress) -> list[Finding]:
    found: list[Finding] = []
    for done, path in enumerate(wanted):
        progress(done, len(wanted))
        found += [one for entry in bank[path].entries for one in examine(entry, context)]
    progress(len(wanted), len(wanted))
    return found


def _of_bank(bank: dict[Path, _Read], wanted: list[Path], context: Context, *, whole: bool) -> list[Finding]:
    """Findings about the bank as a whole: those about the files wanted, and, for the whole bank, about no file."""
    entries = [entry for read in bank.values() for entry in read.entries]
    ours = {entry.head.place for path in wanted for entry in bank[path].entries}
    found = [one for rule in BANK_RULES for one in rule(entries, context)]
    found = [one for one in found if one.place in ours or (whole and one.head is None)]
    if whole and not any(read.issues for read in bank.values()):
        found += [one for rule in LIST_RULES for one in rule(entries, context)]
    return found


def _of_blueprints(shelf: Shelf) -> Iterator[Issue]:
    for path in sorted(path for root in shelf.roots for path in (root / "blueprints").glob("*.toml")):
        notes = Notes(shelf.label(path), "")
        blueprint_of(shelf, path, notes)
        yield from notes.issues


def _read(shelf: Shelf, path: Path) -> _Read:
    loaded = shelf.load(path)
    text = glance(path) if loaded.entries else ""
    return _Read(text, loaded.entries, loaded.issues)


def _context(shelf: Shelf, files: Iterable[_Read]) -> Context:
    words = frozenset[str]().union(*(_LOWER_CASE.findall(read.text) for read in files))
    return Context(
        bank=shelf.root.name,
        slips=tuple(shelf.slips()),
        cautions=tuple(shelf.cautions()),
        tables=tuple(shelf.tables()),
        terms=frozenset(shelf.terms()),
        words=words,
    )


def _placed(shelf: Shelf, bank: dict[Path, _Read], one: Finding) -> Issue:
    path = shelf.folders.labelled(one.place.path)
    if path in bank:
        return placed(one, bank[path].text)
    return placed(one, glance(path))


def files_of(shelf: Shelf, named: Sequence[Path]) -> list[Path]:
    """The files of entries that are wanted; a shared list or a table has none, and is read with any of them."""
    if not named:
        return shelf.files()
    found = [file for path in named for file in _below(shelf, path)]
    return [file for file in dict.fromkeys(found) if not _is_shared(shelf, file)]


def _below(shelf: Shelf, path: Path) -> list[Path]:
    if not path.exists():
        raise NotFound(f"no such file or folder {str(path)!r}", mend="name a bank file or a folder of them")
    if not any(path == root or root in path.parents or path in root.parents for root in shelf.roots):
        raise NotFound(f"{str(path)!r} is not in the bank {str(shelf.root)!r}", mend="name its bank with --bank")
    found = [file for file in shelf.files() if file == path or path in file.parents]
    return found or ([path] if path.is_file() else [])


def _is_shared(shelf: Shelf, file: Path) -> bool:
    return file.parent.name in NOT_TOPICS or (file.parent in shelf.roots and file.name in _SHARED)
