"""The kinds of boards, containment, zones, signs and control circuits, and who draws each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quizzer.blocks.pictures import Picture
from quizzer.picture.bath_zones import draw_bath_zones
from quizzer.picture.colours import draw_colours
from quizzer.picture.conduit import draw_conduit
from quizzer.picture.consumer_unit import draw_consumer_unit
from quizzer.picture.control import draw_control
from quizzer.picture.distribution import draw_distribution
from quizzer.picture.label import draw_label
from quizzer.picture.pen import Pen
from quizzer.picture.safe_zones import draw_safe_zones
from quizzer.picture.symbols import draw_symbols
from quizzer.picture.trunking import draw_trunking

DRAWERS: Mapping[str, Callable[[Picture, Pen], str]] = {
    "bath-zones": draw_bath_zones,
    "colours": draw_colours,
    "conduit-set": draw_conduit,
    "consumer-unit": draw_consumer_unit,
    "control": draw_control,
    "distribution": draw_distribution,
    "label": draw_label,
    "safe-zones": draw_safe_zones,
    "symbols": draw_symbols,
    "trunking": draw_trunking,
}
