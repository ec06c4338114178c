"""The kinds of networks, vectors and instruments, and who draws each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quizzer.blocks.pictures import Picture
from quizzer.picture.instruments import draw_dial, draw_meter
from quizzer.picture.pen import Pen
from quizzer.picture.resistors import draw_resistors
from quizzer.picture.three_phase import draw_delta, draw_star
from quizzer.picture.transformer import draw_transformer
from quizzer.picture.vectors import draw_phasors, draw_triangle

DRAWERS: Mapping[str, Callable[[Picture, Pen], str]] = {
    "delta": draw_delta,
    "dial": draw_dial,
    "meter": draw_meter,
    "phasors": draw_phasors,
    "power-triangle": draw_triangle,
    "resistors": draw_resistors,
    "star": draw_star,
    "transformer": draw_transformer,
}
