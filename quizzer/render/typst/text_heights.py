"""How high texts come out in each look, as multiples of the size of its letters, without laying them out.

A template that does not want something parted has to know whether it fills more than a page: it takes these, and lays
out for it only what comes near to that. A test holds them to what Typst measures.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum
from typing import Final, NamedTuple

from quizzer.render.ties import together
from quizzer.render.typst.printed_lines import SIZE, rows

HIGH: Final = 0.66  # from the top of a capital letter down to its line
INDENT: Final = 0.5  # between the label of an option and its text
CAUTION_INSET: Final = 0.7
HEAD: Final = 1.5  # of a heading, and below it


class _Look(NamedTuple):
    """As in `look.typ`: how wide the page is, the gap between lines, and the space between words as a share of usual.

    `aside` is the width in front of what is asked.
    """

    wide: float
    leading: float
    spaces: float
    aside: float


_LOOKS: Final = {
    "standard": _Look(481.89 / 11.5, 0.68, 1.0, 2.0),
    "large-print-18": _Look(493.23 / 18, 0.75, 1.1, 2.2),
    "large-print-24": _Look(504.57 / 24, 0.75, 1.1, 2.2),
    "wide-spaced": _Look(481.89 / 13, 1.15, 1.5, 2.0),
}


class TextHeights:
    """The heights of texts in one look."""

    def __init__(self, look: str) -> None:
        self._look = _LOOKS[look]
        self._between, self.asked = 1.6 * self._look.leading, self._look.wide - self._look.aside

    def text(self, words: str, less: float = 0.0, *, beside: bool = True) -> float:
        """The height of a text as wide as what is asked, or as the page where nothing stands `beside` it.

        It has so much `less` room.
        """
        room = (self.asked if beside else self._look.wide) - less
        lines = rows(together(words), room * SIZE, self._look.spaces)
        return lines * (HIGH + self._look.leading) - self._look.leading

    def options(self, texts: Sequence[str], widest: float) -> float:
        """The height of options with labels as wide as that."""
        gaps = 1.25 * self._look.leading * max(0, len(texts) - 1)
        return fsum(self.text(each, widest + INDENT) for each in texts) + gaps

    def caution(self, said: str, *, beside: bool = True) -> float:
        """The height of a caution."""
        return self.text(said, CAUTION_INSET, beside=beside) + 0.5

    def stacked(self, heights: Sequence[float]) -> float:
        """The height of paragraphs below each other; 0 stands for what is added elsewhere."""
        return fsum(heights) + self._between * max(0, len(heights) - 1)

    def solved(self, heights: Sequence[float], options: Sequence[str]) -> float:
        """The height of a heading, what was asked, and options with what is said of them."""
        told = fsum(self.text(each, 1.3, beside=False) + self._look.leading for each in options)
        return HEAD + self.stacked([*heights, told])
