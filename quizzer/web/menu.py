"""The places of the page: four in the bar, the others behind the last of them."""

from __future__ import annotations

from typing import NamedTuple


class MenuPlace(NamedTuple):
    """A place: its path, its name, and what is there."""

    path: str
    name: str
    about: str = ""


STUDY = MenuPlace("/study", "Study")
PAPERS = MenuPlace("/papers", "Mock paper")
PROGRESS = MenuPlace("/progress", "Progress")
MORE = MenuPlace("/more", "More")
BAR = (STUDY, PROGRESS, PAPERS, MORE)
WEAK = MenuPlace("/weak", "Weak topics", "what to study first, and why")
READY = MenuPlace("/ready", "Readiness", "the mark to expect, with its range")
PLAN = MenuPlace("/plan", "Plan", "the days to the exam, for a calendar too")
MISTAKES = MenuPlace("/mistakes", "Mistakes", "what to work again")
WORDS = MenuPlace("/words", "Words", "words of the trade, and what the bank says of them")
SETTINGS = MenuPlace("/settings", "Settings", "the paper, the exam day, minutes a day")
GUIDES = MenuPlace("/guides", "Guides", "how all this works")
REST = (WEAK, READY, PLAN, MISTAKES, WORDS, GUIDES, SETTINGS)


def place_of(path: str) -> str:
    """The item of the bar that a path lies under."""
    return next((item.path for item in BAR if path == item.path or path.startswith(f"{item.path}/")), MORE.path)
