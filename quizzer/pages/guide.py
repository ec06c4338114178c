"""The list of the guides inside the program."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.blocks.page import Page
from quizzer.blocks.text import Points, do


def guides_page(guides: Mapping[str, str]) -> Page:
    """Each guide with what it is about, and how to open it."""
    return Page("Guides", (Points([(f"{name}: {about}. ", do("guide", name)) for name, about in guides.items()]),))
