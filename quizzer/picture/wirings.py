"""The kinds of circuits, switching and tests, and who draws each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quizzer.blocks.pictures import Picture
from quizzer.picture.fault_loops import draw_earth_fault_loop
from quizzer.picture.insulation import draw_insulation_test
from quizzer.picture.pen import Pen
from quizzer.picture.r1_r2 import draw_r1_r2
from quizzer.picture.ring import draw_radial, draw_ring
from quizzer.picture.ring_tests import draw_cross_connected, draw_end_to_end
from quizzer.picture.switching import draw_switching

DRAWERS: Mapping[str, Callable[[Picture, Pen], str]] = {
    "ring": draw_ring,
    "radial": draw_radial,
    "end-to-end": draw_end_to_end,
    "cross-connected": draw_cross_connected,
    "r1-r2": draw_r1_r2,
    "insulation-test": draw_insulation_test,
    "switching": draw_switching,
    "earth-fault-loop": draw_earth_fault_loop,
}
