"""The line of a key in TOML text: parsing throws lines away, and a complaint needs one.

Only run when there is something to complain about. Not a parser: it knows headers, keys at the start of a line, and
that the lines of a multi-line text or list hold no keys.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

Path = tuple[str | int, ...]  # keys and places in lists, from the top of the file

PARTS = 16  # of a dotted key: no file of ours has more, and the rest of one made to be slow is passed over

_HEADER = re.compile(r"^\s*(\[\[?)\s*([A-Za-z0-9_.\-\" ]+?)\s*\]\]?\s*(#.*)?$")
_KEY = re.compile(r"^\s*([A-Za-z0-9_\-]+|\"[^\"]*\")((?:\s*\.\s*[A-Za-z0-9_\-]+)*)\s*=")
_QUOTED = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'|#.*")


@lru_cache(maxsize=4)
def lines_of(text: str) -> dict[Path, int]:
    """The line (from 1) of every key path that the text names. Kept, because complaints come by the file."""
    lines: dict[Path, int] = {}
    for key, number in _key_lines(text):
        lines.setdefault(key, number)
    return lines


def line_of(text: str, path: Path) -> int:
    """The line (from 1) of the longest beginning of `path` that the text names; 0 when it names none."""
    lines = lines_of(text)
    for end in range(len(path), 0, -1):
        if path[:end] in lines:
            return lines[path[:end]]
    return 0


def _key_lines(text: str) -> Iterator[tuple[Path, int]]:
    counts: dict[Path, int] = {}
    here: Path = ()
    for number, line in _outside_values(text):
        header = _HEADER.match(line)
        if header:
            here = _enter(header[1] == "[[", header[2], counts)
            yield here, number
        elif key := _KEY.match(line):
            parts = [key[1].strip('"'), *(part.strip() for part in key[2].split(".", PARTS)[1:PARTS])]
            for end in range(1, len(parts) + 1):
                yield (*here, *parts[:end]), number


def _enter(array: bool, dotted: str, counts: dict[Path, int]) -> Path:
    path: Path = ()
    names = [name.strip().strip('"') for name in dotted.split(".", PARTS)[:PARTS]]
    for at, name in enumerate(names):
        path = (*path, name)
        if array and at == len(names) - 1:
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = (*path, counts[path])
    return path


def _outside_values(text: str) -> Iterator[tuple[int, str]]:
    quote, depth = "", 0
    for number, line in enumerate(text.split("\n"), 1):
        if not quote and not depth:
            yield number, line
        for mark in ('"""', "'''"):
            if (not quote or quote == mark) and line.count(mark) % 2:
                quote = "" if quote else mark
        if not quote and not _HEADER.match(line):
            bare = _QUOTED.sub("", line)
            depth = max(0, depth + bare.count("[") - bare.count("]"))
