"""The kinds of networks, vectors and instruments, and who draws each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen
from quizzer.picture.resistors import draw_resistors

DRAWERS: Mapping[str, Callable[[Picture, Pen], str]] = {"resistors": draw_resistors}
