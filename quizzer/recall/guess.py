"""The chance that a reply was a lucky hit, told from the reply as it is kept: its question is gone by then. Pure."""

from __future__ import annotations

from typing import Final

GUESS: Final = 0.25  # among four options


def chosen(reply: str) -> bool:
    """Whether the reply was one letter, an option of four.

    Nobody hits a number by luck, and an order of the steps so seldom that it counts as never.

    >>> chosen("B"), chosen("0.94"), chosen("DBCA")
    (True, False, False)
    """
    return len(reply) == 1 and reply.isalpha()


def guess_of(reply: str) -> float:
    """The chance that whoever knows nothing gives the key, where this was a reply."""
    return GUESS if chosen(reply) else 0.0
