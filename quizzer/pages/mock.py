"""What every page about a mock paper says first and last."""

from __future__ import annotations

from quizzer.blocks.notices import NOTICE
from quizzer.blocks.text import Paragraph
from quizzer.blocks.words import MOCK
from quizzer.paper.record import Paper


def mock(paper: Paper) -> Paragraph:
    """Which paper it is, and that it was none that counts."""
    return Paragraph(f"Paper {paper.id}. {MOCK}.", "aside")


def edition(paper: Paper) -> Paragraph:
    """Which edition the answers follow, and who decides."""
    return Paragraph(f"Edition followed: {paper.edition}. {NOTICE}", "aside")
