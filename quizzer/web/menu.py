"""The places of the page: four in the bar, the others behind the last of them."""

from __future__ import annotations

from typing import NamedTuple


class MenuPlace(NamedTuple):
    """A place: its path, its name, and what is there."""

    path: str
    name: str
    about: str = ""


STUDY = MenuPlace("/study", "Study")
PROGRESS = MenuPlace("/progress", "Progress")
MORE = MenuPlace("/more", "More")
BAR = (STUDY, PROGRESS, MORE)
WEAK = MenuPlace("/weak", "Weak topics", "what to study first, and why")
READY = MenuPlace("/ready", "Readiness", "the mark to expect, with its range")
GUIDES = MenuPlace("/guides", "Guides", "how all this works")
REST = (WEAK, READY, GUIDES)


def place_of(path: str) -> str:
    """The item of the bar that a path lies under."""
    return next((item.path for item in BAR if path == item.path or path.startswith(f"{item.path}/")), MORE.path)
