"""A sheet for the pocket: eight small pages on one of A4, to be folded."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quizzer.blocks.page import Page, shown
from quizzer.render.typst.report import plain
from quizzer.render.typst.typesetting import pdf

PAGES = 8


def pocket_pdf(cover: Page, notes: Sequence[Page], day: date) -> bytes:
    """The sheet as a tagged PDF: the cover, then as many of the notes, in their order, as its pages hold."""
    told = [_note(cover, 1), *(_note(each, 2) for each in notes)]
    return pdf("pocket", {"title": cover.title, "notes": told}, day)


def _note(note: Page, level: int) -> dict[str, object]:
    blocks = [each for block in shown(note.blocks, "paper") for each in plain(block)]
    return {"title": note.title, "level": level, "blocks": blocks}
