"""Devices in a line read back: pairs of loose ends of wires, level or upright, as far apart as a device is long."""

from itertools import pairwise
from math import dist

from quizzer.picture.shapes import Drawing, Point, Stroke, box_of
from tests.picture.geometry import inside
from tests.picture.reading import TOUCH, distance, ends, node_at, nodes_of, wires_of

SHORTEST, LONGEST = 13.0, 21.0


def bridged(drawing: Drawing) -> list[tuple[int | None, int | None]]:
    """The nodes on both sides of every device of a drawing."""
    nodes, loose = nodes_of(drawing), loose_ends(drawing)
    pairs = []
    for one in loose:
        for other in loose:
            level = abs(one[1] - other[1]) < TOUCH and SHORTEST < other[0] - one[0] < LONGEST
            upright = abs(one[0] - other[0]) < TOUCH and SHORTEST < other[1] - one[1] < LONGEST
            if (level or upright) and _device(drawing, one, other):
                pairs.append((node_at(nodes, one), node_at(nodes, other)))
    return pairs


def _device(drawing: Drawing, one: Point, other: Point) -> bool:
    """Whether a lever has its pivot at the second end, or an outline lies between both."""
    middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
    lines = [shape for shape in drawing.shapes if isinstance(shape, Stroke)]
    levers = [each.points[1] for each in lines if each.role == "mark" and each.points[0] == other]
    pivots = any(dist(end, one) < dist(other, one) for end in levers)
    return pivots or any(each.role == "body" and inside(middle, box_of(each)) for each in lines)


def loose_ends(drawing: Drawing) -> list[Point]:
    """The ends of wires that lie on no other wire."""
    wires = wires_of(drawing)
    return [
        end
        for wire in wires
        for end in ends(wire)
        if not any(
            distance(end, part) <= TOUCH for other in wires if other is not wire for part in pairwise(other.points)
        )
    ]
