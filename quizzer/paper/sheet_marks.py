"""What somebody answered, from how much was drawn into the boxes of a row. What is not clear is left to a person."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

NONE, UNSURE = "-", "?"
# Shares of a box of six millimetres that are dark, print taken off. An empty box has up to 0.015, and the faintest
# crosses of a soft pencil begin at 0.07.
EMPTY, DRAWN = 0.03, 0.062
RUBBED = 0.4  # what is left of a rubbed-out cross is at most this share of the one that stands
CROSSED, FILLED = 0.6, 0.8  # of a box's area touched by strokes: a cross at most, a filled box at least


class Box(NamedTuple):
    """A box as seen: the mean darkness inside, print taken off, and the share of its area that strokes touch."""

    ink: float
    cover: float


class Read(NamedTuple):
    """A row as read: a letter, `-` where nothing is marked, or `?` with the reason why a person must look."""

    letter: str
    why: str = ""


def read_row(boxes: Mapping[str, Box], *, found: bool) -> Read:
    """The answer of a row of boxes by letter; `found` says that their outlines were seen where they should be.

    A cross is an answer, a filled box is one taken back, and of what was rubbed out a little may be left.
    """
    if not found:
        return Read(UNSURE, "its boxes cannot be found")
    if reason := _doubt(boxes):
        return Read(UNSURE, reason)
    return Read("".join(label for label, box in boxes.items() if box.ink >= DRAWN and box.cover <= CROSSED) or NONE)


def _doubt(boxes: Mapping[str, Box]) -> str:
    """Why a person must look at a row; "" where it is clear."""
    drawn = {label: box for label, box in boxes.items() if box.ink >= DRAWN}
    faint = {label: box for label, box in boxes.items() if EMPTY <= box.ink < DRAWN}
    crossed = [label for label, box in drawn.items() if box.cover <= CROSSED]
    between = [label for label, box in drawn.items() if CROSSED < box.cover < FILLED]
    if between:
        return f"{_named(between)} may be crossed or filled in"
    if len(crossed) > 1:
        return f"{_named(crossed)} are crossed"
    if not crossed:
        marks = ((drawn, "filled in, none crossed"), (faint, "faintly marked"))
        return ", ".join(f"{_named(list(some))} {how}" for some, how in marks if some)
    left = [label for label, box in faint.items() if box.ink > RUBBED * drawn[crossed[0]].ink]
    return f"{crossed[0]} is crossed, and {_named(left)} perhaps" if left else ""


def _named(labels: list[str]) -> str:
    return " and ".join(filter(None, [", ".join(labels[:-1]), labels[-1]]))
