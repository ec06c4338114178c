"""A picture as a block: which kind, and what it is told. The drawing and its words are made of nothing else."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.values import NamedTuple

Told = str | tuple[str, ...]
ASKED = "?"  # in place of what is asked


class Picture(NamedTuple):
    """A picture by its kind and what it is told, each a text or a list of texts.

    `needed` to answer, or else it shows the text again.
    """

    kind: str
    told: Mapping[str, Told]
    needed: bool = False

    def text(self, name: str) -> str:
        """What it is told by that name as one text; "" where it is told nothing."""
        found = self.told.get(name, "")
        return found if isinstance(found, str) else ", ".join(found)

    def texts(self, name: str) -> tuple[str, ...]:
        """What it is told by that name as a list; () where it is told nothing."""
        found = self.told.get(name, ())
        return (found,) if isinstance(found, str) else tuple(found)
