"""The entries of a bank file by their look, before anything is parsed, and the ids that are no more."""

from __future__ import annotations

import re

from quizzer.values import NamedTuple

_HEADER = re.compile(r"\[\[\s*(?:template|card|family|diagnose)\s*\]\]")
# Starts at the line's end before it: searching for a plain character is several times as fast as for ^.
_LINE = re.compile(
    r"""\n[ \t]*(?=[\[irs])(?:(?P<part>\[)|(?P<key>id|safety_critical)\s*=\s*["']?(?P<value>[a-z0-9-]+)"""
    r"""|replaces[ \t]*=[ \t]*(?P<replaced>\[[^\]]*\]|"[^"\n]*"))"""
)
_OLD = re.compile(r"""["']([a-z0-9/-]+)["']""")


class Listed(NamedTuple):
    """An entry by its look in the file, before anything is parsed."""

    id: str
    topic: str
    safety_critical: bool


class Outline(NamedTuple):
    """What a file has by its look: its entries, and ids that are no more with those in their places."""

    entries: tuple[Listed, ...]
    forwards: tuple[tuple[str, str], ...]


def outline_in(folder: str, text: str) -> Outline:
    """What a file's text has; `folder` is its id, `testing/ring`. Of an entry only the lines before its parts are read.

    Where a text says twice what an entry's id is, the first one counts.
    """
    topic = folder.split("/", maxsplit=1)[0]
    entries: list[Listed] = []
    forwards: list[tuple[str, str]] = []
    for header in _HEADER.finditer(text):
        before = text[text.rfind("\n", 0, header.start()) + 1 : header.start()]
        said = {} if before.strip(" \t") else _said(text, header.end())
        if "id" in said:
            id = f"{folder}/{said['id']}"
            entries.append(Listed(id, topic, said.get("safety_critical") == "true"))
            forwards += [(old, id) for old in _OLD.findall(said["replaces"])] if "replaces" in said else []
    return Outline(tuple(entries), tuple(forwards))


def _said(text: str, start: int) -> dict[str, str]:
    """What the lines from there to the first part of the entry say of it."""
    said: dict[str, str] = {}
    for line in _LINE.finditer(text, start):
        match line.lastgroup:
            case "part":
                break
            case "replaced":
                said.setdefault("replaces", line["replaced"])
            case _:
                said.setdefault(line["key"], line["value"])
    return said
