"""The picture of a question: what its entry tells it, with the givens filled in."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.pictures import AskedPicture
from quizzer.bank.wording import Wording
from quizzer.blocks.pictures import Picture


def pictured(asked: AskedPicture | None, texts: Mapping[str, str]) -> Picture | None:
    """The picture with every hole filled; None where there is none."""
    if asked is None:
        return None
    told = {
        name: each.fill(texts) if isinstance(each, Wording) else tuple(part.fill(texts) for part in each)
        for name, each in asked.told.items()
    }
    return Picture(asked.kind, told, asked.needed)
