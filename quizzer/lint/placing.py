"""A finding to an issue: the line of its key is looked up only now, when somebody is to be told."""

from __future__ import annotations

from quizzer.bank.fields import Path
from quizzer.bank.key_lines import lines_of
from quizzer.errors import Issue, Place
from quizzer.lint.catalogue import CATALOGUE
from quizzer.lint.rule import Finding


def placed(found: Finding, text: str) -> Issue:
    """The issue of a finding in a file of this text."""
    names = [str(part) for part in found.path if not isinstance(part, int)]
    if found.head is not None:
        names.insert(0, found.head.id.rpartition("/")[2])
    place = Place(found.place.path, _line(found, text))
    key = ".".join(names) or "bank"
    return Issue(found.code, place, key, found.what, found.mend, CATALOGUE[found.code].warning)


def _line(found: Finding, text: str) -> int:
    """The line of the longest beginning of the key path that the file names."""
    lines = lines_of(text)
    entry = next((path for path, line in lines.items() if line == found.place.line), ()) if found.head else ()
    path: Path = (*entry, *found.path)
    return next((lines[path[:end]] for end in range(len(path), 0, -1) if path[:end] in lines), found.place.line)
