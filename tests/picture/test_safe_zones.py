"""Cables in a wall read back: a drawn cable lies in the prescribed zones where its told way does.

The rule is BS 7671 Regulation 522.6.202 (i), from memory: within 150 mm of the top of the wall or of a corner of two
walls, or straight along or up and down from a point or accessory.
"""

from itertools import pairwise

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Drawing, Stroke, box_of

METRE = 100.0
WAYS = {
    "up from switch": True,
    "down from socket": True,
    "left from unit": True,
    "right from switch": True,
    "switch to socket": False,
    "unit to switch": False,
    "switch to socket, square": True,
    "0.1 m below the ceiling": True,
    "0.2 m below the ceiling": False,
    "0.5 m below the ceiling": False,
    "0.1 m from the left corner": True,
    "0.14 m from the right corner": True,
    "0.3 m from the right corner": False,
}


def wall_and_places(
    drawing: Drawing,
) -> tuple[tuple[float, float, float, float], list[tuple[float, float, float, float]]]:
    strokes = [shape for shape in drawing.shapes if isinstance(shape, Stroke)]
    (wall,) = [box_of(each) for each in strokes if each.style == "heavy"]
    return wall, [box_of(each) for each in strokes if each.role == "body"]


def within(drawing: Drawing) -> bool:
    """Whether every piece of the one drawn cable lies in a zone."""
    (left, top, right, _), places = wall_and_places(drawing)
    (cable,) = [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.role == "wire"]
    band = 0.15 * METRE

    def piece(start: tuple[float, float], end: tuple[float, float]) -> bool:
        ends = (start, end)
        bands = (
            all(y <= top + band for _, y in ends),
            all(x <= left + band for x, _ in ends),
            all(x >= right - band for x, _ in ends),
        )
        along = any(
            all(box[1] <= y <= box[3] for _, y in ends) or all(box[0] <= x <= box[2] for x, _ in ends) for box in places
        )
        return any(bands) or along

    return all(piece(start, end) for start, end in pairwise(cable.points))


def wall_with(way: str) -> Drawing:
    return drawn(Picture("safe-zones", {"bands": "drawn", "cables": (f"A: {way}",)}))


@pytest.mark.parametrize("way", WAYS)
def test_a_drawn_cable_is_where_the_told_one_is(way):
    assert within(wall_with(way)) == WAYS[way]


def test_without_its_accessory_a_cable_is_in_no_zone():
    drawing = wall_with("left from unit")
    less = drawing._replace(
        shapes=tuple(each for each in drawing.shapes if not (isinstance(each, Stroke) and each.role == "body"))
    )
    assert not within(less)


def test_the_dotted_band_is_150_mm_from_ceiling_and_corners():
    drawing = wall_with("up from switch")
    (left, top, right, _), _ = wall_and_places(drawing)
    (band,) = [box_of(each) for each in drawing.shapes if isinstance(each, Stroke) and each.style == "dotted"]
    assert (band[0] - left, band[1] - top, right - band[2]) == pytest.approx((0.15 * METRE,) * 3)


@pytest.mark.parametrize(
    "way", ["up", "up from lamp", "switch to switch", "2.5 m below the ceiling", "0 m from the left corner"]
)
def test_what_is_no_way_is_refused_with_a_mend(way):
    with pytest.raises(Refused) as refused:
        wall_with(way)
    assert refused.value.mend
