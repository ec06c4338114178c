"""The words of QTI elements of any version, as a card has them: lines of plain text with symbols as `Z_s`."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable

_BLOCKS = {"p", "div", "li", "tr", "blockquote", "pre", "prompt", "contentbody", "h1", "h2", "h3", "h4", "h5", "h6"}
_BEYOND = {
    "img": "a picture",
    "object": "a picture or a film",
    "video": "a film",
    "audio": "a sound",
    "svg": "a picture",
    "figure": "a picture",
    "table": "a table",
    "math": "a formula",
    "iframe": "another page",
    "include": "another file",
    "stimulusref": "another file",
    "printedvariable": "a number drawn anew each time",
}
_LETTER = re.compile(r"[A-Za-zΑ-ω]\Z")
_RAISED = str.maketrans("0123456789+-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")


class Untaken(Exception):
    """An item holds what no card can: why, in a few words."""


def kind_of(element: ET.Element) -> str:
    """An element's name without namespace, prefix, hyphens and capitals: the same in every version."""
    return element.tag.rpartition("}")[2].removeprefix("qti-").replace("-", "").lower()


def attribute(element: ET.Element, name: str, otherwise: str = "") -> str:
    """An attribute by its name without hyphens and capitals."""
    found = (value for key, value in element.items() if key.rpartition("}")[2].replace("-", "").lower() == name)
    return next(found, otherwise)


def words_of(element: ET.Element, apart: Callable[[ET.Element], bool], *, spoken: bool = False) -> str:
    """The words inside an element, a line for each paragraph, without what stands `apart`.

    A formula is Untaken, or with `spoken` is told by its words. Raises Untaken.
    """
    pieces: list[str] = []
    try:
        _collect(element, apart, pieces, spoken=spoken)
    except RecursionError:
        raise Untaken("is nested too deeply") from None
    lines = (re.sub("[ \t\r]+", " ", line).strip(" ") for line in "".join(pieces).split("\n"))
    return "\n".join(filter(None, lines))


def _collect(element: ET.Element, apart: Callable[[ET.Element], bool], pieces: list[str], *, spoken: bool) -> None:
    pieces.append((element.text or "").replace("\n", " "))
    for child in element:
        if not apart(child):
            _take(child, apart, pieces, spoken=spoken)
        pieces.append((child.tail or "").replace("\n", " "))


def _take(child: ET.Element, apart: Callable[[ET.Element], bool], pieces: list[str], *, spoken: bool) -> None:
    kind = kind_of(child)
    if kind == "math" and spoken:
        pieces.append(attribute(child, "alttext") or "".join(child.itertext()))
    elif kind in _BEYOND:
        raise Untaken(f"holds {_BEYOND[kind]}")
    elif kind == "br":
        pieces.append("\n")
    elif kind in ("sub", "sup"):
        pieces.append(_shifted(kind, "".join(child.itertext()).strip(), "".join(pieces[-2:])))
    else:
        around = "\n" if kind in _BLOCKS else ""
        pieces.append(around)
        _collect(child, apart, pieces, spoken=spoken)
        pieces.append(around)


def _shifted(kind: str, text: str, before: str) -> str:
    """A subscript as it is typed, `Z_s`; a raised number in its own characters."""
    if kind == "sub":
        return f"_{text}" if _LETTER.search(before) else text
    raised = text.translate(_RAISED)
    return raised if not re.search("[A-Za-z]", text) else f"^{text}"
