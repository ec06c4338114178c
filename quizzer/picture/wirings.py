"""The kinds of circuits, switching and tests, and who draws each. Only the file of the kind that is drawn is opened."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen


def drawer(kind: str) -> Callable[[Picture, Pen], str]:
    """Who draws a kind; KeyError for one that nobody draws here."""
    if kind in ("ring", "radial"):
        from quizzer.picture.ring import draw_radial, draw_ring

        return draw_ring if kind == "ring" else draw_radial
    if kind in ("end-to-end", "cross-connected"):
        from quizzer.picture.ring_tests import draw_cross_connected, draw_end_to_end

        return draw_end_to_end if kind == "end-to-end" else draw_cross_connected
    return _drawer_of_one(kind)


def _drawer_of_one(kind: str) -> Callable[[Picture, Pen], str]:
    """Who draws a kind that has a file of its own."""
    if kind == "r1-r2":
        from quizzer.picture.r1_r2 import draw_r1_r2

        return draw_r1_r2
    if kind == "insulation-test":
        from quizzer.picture.insulation import draw_insulation_test

        return draw_insulation_test
    if kind == "switching":
        from quizzer.picture.switching import draw_switching

        return draw_switching
    if kind == "earth-fault-loop":
        from quizzer.picture.fault_loops import draw_earth_fault_loop

        return draw_earth_fault_loop
    raise KeyError(kind)
