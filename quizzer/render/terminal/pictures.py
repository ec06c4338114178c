"""A picture on a terminal: what can be seen in it, in words."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.kinds import drawn
from quizzer.render.terminal.canvas import Canvas

LEAD = "Picture"


def add_picture(canvas: Canvas, picture: Picture) -> None:
    """The words of the picture. What only shows the text again is faint: whoever can see has read it."""
    canvas.text(f"{LEAD}: {drawn(picture).words}", hang=len(LEAD) + 2, style="" if picture.needed else "faint")
