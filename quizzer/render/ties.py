"""What is not parted at the end of a line where there is room for it whole."""

from __future__ import annotations

import re

from quizzer.units import UNITS

_SHOWN = sorted({unit.shown for unit in UNITS.values() if unit.shown}, key=len, reverse=True)
_FIGURE = re.compile(rf"(?<=\d) (?=(?:{'|'.join(map(re.escape, _SHOWN))})(?!\w))")


def together(text: str) -> str:
    r"""The text with figures and their units kept on one line: the space between them does not break.

    >>> together("32 A for 5 s")
    '32\xa0A for 5\xa0s'
    """
    return _FIGURE.sub("\u00a0", text)
