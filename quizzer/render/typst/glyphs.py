"""Which characters the printed fonts can draw: a document for screen readers may hold no others."""

from __future__ import annotations

import struct
import unicodedata
from collections.abc import Iterator
from functools import cache
from pathlib import Path

FONTS = Path(__file__).parent.parent / "fonts"
# What the program draws on a terminal, where a guide shows it.
_DRAWN = {"─": "-", "│": "|", "├": "+", "┤": "+", "●": "*", "█": "#", "░": ".", **dict.fromkeys("▏▎▍▌▋▊▉", "#")}
_UNSEEN = {"Cc", "Cf", "Zl", "Zp"}  # controls, among them those that turn the direction of a line


def printable(text: str) -> str:
    r"""The text with nothing in it that cannot be printed: an unknown character becomes its code in brackets.

    >>> printable("2.5 mm², Ω"), printable("tab\tand 中"), printable("left\u202eright")
    ('2.5 mm², Ω', 'tab and [U+4E2D]', 'leftright')
    """
    if text.isascii() and text.isprintable():
        return text
    drawn = covered()
    if plain().issuperset(text) and unicodedata.is_normalized("NFC", text):
        return text
    return "".join(_printed(char, drawn) for char in unicodedata.normalize("NFC", text))


@cache
def covered() -> frozenset[int]:
    """The code points that the regular and the bold font both draw."""
    regular, bold = (frozenset(_code_points(path.read_bytes())) for path in sorted(FONTS.glob("*.otf")))
    return regular & bold


@cache
def plain() -> frozenset[str]:
    """The characters that are printed as they are."""
    return frozenset(char for each in covered() if _printed(char := chr(each), covered()) == char)


def _printed(char: str, drawn: frozenset[int]) -> str:
    if char.isspace():
        return char if char == "\u00a0" else " "
    if unicodedata.category(char) in _UNSEEN:
        return ""
    if ord(char) in drawn:
        return char
    if char in _DRAWN:
        return _DRAWN[char]
    plainer = unicodedata.normalize("NFKC", char)
    return plainer if all(ord(each) in drawn for each in plainer) else f"[U+{ord(char):04X}]"


def _code_points(font: bytes) -> Iterator[int]:
    """The code points of an OpenType font: format 12 of its `cmap` table (OpenType specification 1.9, cmap)."""
    (tables,) = struct.unpack_from(">H", font, 4)
    records = (struct.unpack_from(">4sLLL", font, 12 + 16 * at) for at in range(tables))
    start = next(offset for tag, _, offset, _ in records if tag == b"cmap")
    (subtables,) = struct.unpack_from(">H", font, start + 2)
    offsets = (start + struct.unpack_from(">HHL", font, start + 4 + 8 * at)[2] for at in range(subtables))
    at = next(offset for offset in offsets if struct.unpack_from(">H", font, offset) == (12,))
    (groups,) = struct.unpack_from(">L", font, at + 12)
    for group in range(groups):
        first, last, _ = struct.unpack_from(">LLL", font, at + 16 + 12 * group)
        yield from range(first, last + 1)
