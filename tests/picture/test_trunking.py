"""Cables in trunking read back: each lies wholly inside, none in another, all of their right relative size."""

from itertools import combinations
from math import hypot
from random import Random

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Disc, Drawing, Stroke, box_of
from tests.picture.makers.fittings import trunking

SLACK = 0.01


def cables_of(drawing: Drawing) -> list[Disc]:
    return [shape for shape in drawing.shapes if isinstance(shape, Disc)]


def faults_of(drawing: Drawing) -> list[str]:
    """What is wrong with the packing: a cable in the wall, or in another."""
    (wall,) = [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.role == "body"]
    left, top, right, low = box_of(wall)
    found = []
    for one in cables_of(drawing):
        (x, y), radius = one.centre, one.radius + 0.0
        if (
            x - radius < left - SLACK
            or x + radius > right + SLACK
            or y - radius < top - SLACK
            or y + radius > low + SLACK
        ):
            found.append(f"in the wall: {one}")
    for one, other in combinations(cables_of(drawing), 2):
        away = hypot(one.centre[0] - other.centre[0], one.centre[1] - other.centre[1])
        if away < one.radius + other.radius - SLACK:
            found.append(f"in one another: {one} {other}")
    return found


def told_sizes(picture: Picture) -> list[float]:
    pairs = [text.split(" of ") for text in picture.texts("cables")]
    return sorted(float(size.split()[0]) for many, size in pairs for _ in range(int(many)))


@pytest.mark.parametrize("seed", range(30))
def test_cables_are_inside_beside_each_other_and_to_scale(seed):
    picture = trunking(Random(seed))
    drawing = drawn(picture)
    assert faults_of(drawing) == []
    (wall,) = [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.role == "body"]
    scale = (box_of(wall)[2] - box_of(wall)[0]) / float(picture.text("size").split()[0])
    assert sorted(2 * disc.radius / scale for disc in cables_of(drawing)) == pytest.approx(told_sizes(picture))


def test_a_cable_moved_or_taken_out_is_found():
    picture = trunking(Random(3))
    drawing = drawn(picture)
    for cable in cables_of(drawing):
        moved = cable._replace(centre=(cable.centre[0] - 2 * cable.radius, cable.centre[1] + cable.radius))
        assert faults_of(drawing._replace(shapes=(*(each for each in drawing.shapes if each is not cable), moved)))
        less = drawing._replace(shapes=tuple(each for each in drawing.shapes if each is not cable))
        assert len(cables_of(less)) != len(told_sizes(picture))


@pytest.mark.parametrize(("wide", "high", "size"), [(50, 50, 9), (40, 50, 10), (30, 20, 7)])
def test_rows_hold_as_many_equal_cables_as_a_square_grid(wide, high, size):
    """A grid of equal circles holds floor(width / size) times floor(height / size): elementary geometry."""
    most = (wide // size) * (high // size)
    told = {"size": f"{wide} mm x {high} mm", "cables": (f"{most} of {size} mm",)}
    assert len(cables_of(drawn(Picture("trunking", told)))) == most
    with pytest.raises(Refused):
        drawn(Picture("trunking", told | {"cables": (f"{most + 1} of {size} mm",)}))
