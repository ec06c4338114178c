"""The entries of a bank file by their look, before anything is parsed."""

from __future__ import annotations

import re

from quizzer.values import NamedTuple

# Starts at the line's end before it: searching for a plain character is several times as fast as for ^.
_HEADER_OR_KEY = re.compile(
    r"""\n[ \t]*(?=[\[is])(?:(?P<bracket>\[)(?P<entry>\[\s*(?:template|card|family|diagnose)\s*\]\])?"""
    r"""|(?P<key>id|safety_critical)\s*=\s*["']?(?P<value>[a-z0-9-]+))"""
)


class Listed(NamedTuple):
    """An entry by its look in the file, before anything is parsed."""

    id: str
    topic: str
    safety_critical: bool


def listed_in(folder: str, text: str) -> list[Listed]:
    """The entries of a file's text; `folder` is its id, `testing/ring`."""
    found: list[dict[str, str]] = []
    inside = False
    for line in _HEADER_OR_KEY.finditer("\n" + text):
        if line["bracket"]:
            inside = line["entry"] is not None
            found += [{}] if inside else []
        elif inside:
            found[-1].setdefault(line["key"], line["value"])
    topic = folder.split("/", maxsplit=1)[0]
    return [
        Listed(f"{folder}/{keys['id']}", topic, keys.get("safety_critical") == "true") for keys in found if "id" in keys
    ]
