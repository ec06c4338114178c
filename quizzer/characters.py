r"""Characters that steer a screen instead of standing on it: controls, marks that turn the direction, lone surrogates.

Text of a file, a store or a command line is shown with them spelled out, so that it can neither move the cursor nor
make one name look like another.
"""

from __future__ import annotations

import re

# C0 and C1 controls but line feed and tab, marks of direction (UAX 9), line and paragraph separators, surrogates.
_CLASS = "\\x00-\\x08\\x0b-\\x1f\\x7f-\\x9f\\u061c\\u200e\\u200f\\u2028-\\u202e\\u2066-\\u2069\\ud800-\\udfff"
STEERING = re.compile(f"[{_CLASS}]")


def shown(text: str) -> str:
    r"""The text with every steering character spelled out.

    >>> shown(chr(27) + "[31mred" + chr(0x202E))
    '\\x1b[31mred\\u202e'
    """
    return STEERING.sub(_spelled, text)


def steering(text: str) -> str:
    r"""The first steering character of the text, spelled out; "" when there is none.

    >>> steering("a" + chr(7)), steering("two\nlines")
    ('\\x07', '')
    """
    found = STEERING.search(text)
    return _spelled(found) if found else ""


def held(text: str) -> str:
    r"""What is wrong with a text that must not steer a screen, to be said of it; "" when nothing is.

    >>> held("a" + chr(7))
    'holds the character \\x07, which steers a screen'
    """
    sign = steering(text)
    return f"holds the character {sign}, which steers a screen" if sign else ""


def _spelled(found: re.Match[str]) -> str:
    number = ord(found[0])
    return f"\\x{number:02x}" if number < 0x100 else f"\\u{number:04x}"
