"""The kinds of circuits, switching and tests, and who draws each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen

DRAWERS: Mapping[str, Callable[[Picture, Pen], str]] = {}
