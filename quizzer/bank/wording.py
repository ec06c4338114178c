"""Sentences with {holes} for quantities."""

from __future__ import annotations

import re
from collections.abc import Mapping

from quizzer.values import NamedTuple

_HOLE = re.compile(r"\{([A-Za-z][A-Za-z0-9_]*)\}")


class Wording(NamedTuple):
    """Text cut at its holes: plain pieces at even places, names at odd ones."""

    pieces: tuple[str, ...]

    @property
    def names(self) -> frozenset[str]:
        """Every name that has a hole."""
        return frozenset(self.pieces[1::2])

    def fill(self, texts: Mapping[str, str]) -> str:
        """The sentence with each hole filled.

        >>> wording("{I} in {R}").fill({"I": "2 A", "R": "5 Ω"})
        '2 A in 5 Ω'
        """
        if len(self.pieces) == 1:
            return self.pieces[0]
        return "".join([texts[piece] if at % 2 else piece for at, piece in enumerate(self.pieces)])


def wording(text: str) -> Wording:
    """Cut a sentence at its holes."""
    return Wording(tuple(_HOLE.split(text)))
