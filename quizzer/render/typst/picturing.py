"""A picture as plain data for a template: its SVG, its words, and how much room it takes."""

from __future__ import annotations

from typing import Any

from quizzer.blocks.pictures import Picture
from quizzer.picture.kinds import drawn
from quizzer.render.svg.pictures import svg_of
from quizzer.render.typst.typesetting import DRAWN

POINTS = 0.75  # of a unit of a drawing: a screen's pixel is three quarters of a printer's point


def pictured(picture: Picture) -> dict[str, Any]:
    """The picture (`svg`), its words, and its natural width and height in points."""
    drawing = drawn(picture)
    size = {"wide": drawing.wide * POINTS, "high": drawing.high * POINTS}
    return {"kind": "picture", DRAWN: svg_of(drawing), "words": drawing.words, **size}
