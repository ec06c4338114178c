"""Ids of entries that are no more, each with the entry that replaces it: by the look of the files, unparsed."""

from __future__ import annotations

import re
from collections.abc import Iterator

_BLOCK = re.compile(r"^[ \t]*\[\[[ \t]*(?:template|card|family|diagnose)[ \t]*\]\]", re.MULTILINE)
_PART = re.compile(r"^[ \t]*\[", re.MULTILINE)
_ID = re.compile(r"""^[ \t]*id[ \t]*=[ \t]*["']([a-z0-9-]+)["']""", re.MULTILINE)
_REPLACES = re.compile(r"^[ \t]*replaces[ \t]*=[ \t]*(\[[^\]]*\]|\"[^\"\n]*\")", re.MULTILINE)
_OLD = re.compile(r"""["']([a-z0-9/-]+)["']""")


def forwards_in(folder: str, text: str) -> Iterator[tuple[str, str]]:
    """Each replaced id of a file with the id of the entry that names it. A file without any costs one search."""
    if "replaces" not in text:
        return
    for block in _BLOCK.split(text)[1:]:
        head = _PART.split(_REPLACES.sub(lambda found: found[0].replace("\n", " "), block), maxsplit=1)[0]
        id, replaced = _ID.search(head), _REPLACES.search(head)
        if id and replaced:
            yield from ((old, f"{folder}/{id[1]}") for old in _OLD.findall(replaced[1]))
