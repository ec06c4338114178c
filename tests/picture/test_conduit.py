"""Conduit read back: two lines as far apart as it is wide, from box to box, and each measure beside its piece."""

from itertools import pairwise

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Drawing, Stroke, Words, box_of
from tests.picture.reading import distance

BENDS = {"right angle": 1, "set": 1, "double set": 2, "saddle": 4}
ALL = {"angle": "30°", "first": "1 m", "last": "2 m"}


def walls_of(drawing: Drawing) -> list[Stroke]:
    return [
        each for each in drawing.shapes if isinstance(each, Stroke) and each.style == "line" and len(each.points) > 5
    ]


def corners(wall: Stroke) -> int:
    """How many curved places there are between straight pieces."""
    long = [abs(one[0] - other[0]) + abs(one[1] - other[1]) > 12 for one, other in pairwise(wall.points)]
    return sum(now and before is False for before, now in pairwise(long))


@pytest.mark.parametrize("bend", BENDS)
def test_a_conduit_runs_from_box_to_box_with_its_bends(bend):
    drawing = drawn(Picture("conduit-set", {"bend": bend}))
    one, other = walls_of(drawing)
    assert corners(one) == BENDS[bend]
    for point in one.points:
        near = min(distance(point, piece) for piece in pairwise(other.points))
        assert 7.0 < near < 8.1
    boxes = [each for each in drawing.shapes if isinstance(each, Stroke) and each.role == "body"]
    assert len(boxes) == 2
    for wall in (one, other):
        for end, box in zip((wall.points[0], wall.points[-1]), boxes, strict=True):
            edges = list(pairwise([*box.points, box.points[0]]))
            assert min(distance(end, edge) for edge in edges) < 3.0


@pytest.mark.parametrize("bend", BENDS)
def test_the_lengths_stand_beside_the_piece_that_they_measure(bend):
    drawing = drawn(Picture("conduit-set", {"bend": bend} | ALL))
    texts = {each.text: each for each in drawing.shapes if isinstance(each, Words)}
    wall = walls_of(drawing)[0]
    first, last = (wall.points[0], wall.points[1]), (wall.points[-2], wall.points[-1])
    for text, own, foreign in (("1 m", first, last), ("2 m", last, first)):
        left, top, right, low = texts[text].box
        middle = ((left + right) / 2, (top + low) / 2)
        assert distance(middle, own) < 60
        assert distance(middle, own) < distance(middle, foreign)


def test_a_line_less_is_another_conduit():
    drawing = drawn(Picture("conduit-set", {"bend": "saddle"}))
    for wall in walls_of(drawing):
        less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wall))
        assert len(walls_of(less)) == 1


@pytest.mark.parametrize(
    "told", [{"bend": "set", "travel": "1 m"}, {"bend": "right angle", "height": "1 m"}, {"bend": "loop"}]
)
def test_a_measure_that_a_bend_has_not_is_refused(told):
    with pytest.raises(Refused) as refused:
        drawn(Picture("conduit-set", told))
    assert refused.value.mend


def test_boxes_lie_outside_of_the_conduit():
    drawing = drawn(Picture("conduit-set", {"bend": "double set"}))
    wall = box_of(walls_of(drawing)[0])
    for box in (box_of(each) for each in drawing.shapes if isinstance(each, Stroke) and each.role == "body"):
        assert box[2] <= wall[0] + 1 or box[0] >= wall[2] - 1
