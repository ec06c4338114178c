"""A drawing read back: which wires are joined, which outlines they end on, and what stands beside each.

Nothing but the drawn shapes is looked at, so that what a person sees is what is compared with the model.
"""

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.picture.shapes import Disc, Drawing, Point, Shape, Stroke, Words, box_of
from tests.picture.geometry import segments

TOUCH = 0.6


class Part(NamedTuple):
    """A drawn outline: the words nearest to it, and the numbers of the nodes whose wires end on it."""

    label: str
    nodes: tuple[int, ...]
    shape: Shape


def parts_of(drawing: Drawing) -> list[Part]:
    """Every outline with the nodes that it joins, in the order in which they are drawn."""
    nodes = nodes_of(drawing)
    labels = [shape for shape in drawing.shapes if isinstance(shape, Words)]
    found = []
    for body in bodies_of(drawing):
        on_it = [any(_on_edge(end, body) for wire in node for end in ends(wire)) for node in nodes]
        found.append(Part(nearest(body, labels), tuple(at for at, touches in enumerate(on_it) if touches), body))
    return found


def bodies_of(drawing: Drawing) -> list[Shape]:
    """The outlines of things."""
    return [shape for shape in drawing.shapes if not isinstance(shape, Words) and shape.role == "body"]


def nodes_of(drawing: Drawing) -> list[list[Stroke]]:
    """The wires in groups that are joined: where an end of one lies on another. Crossings join nothing."""
    groups: list[list[Stroke]] = []
    for wire in wires_of(drawing):
        joined = [group for group in groups if any(meet(wire, other) for other in group)]
        groups = [group for group in groups if group not in joined]
        groups.append([wire, *(other for group in joined for other in group)])
    return groups


def wires_of(drawing: Drawing) -> list[Stroke]:
    """The drawn conductors."""
    return [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.role == "wire"]


def meet(one: Stroke, other: Stroke) -> bool:
    """Whether an end of one lies on the other."""
    return any(on(end, other) for end in ends(one)) or any(on(end, one) for end in ends(other))


def ends(wire: Stroke) -> tuple[Point, Point]:
    """Both ends of a wire."""
    return (wire.points[0], wire.points[-1])


def on(point: Point, shape: Shape) -> bool:
    """Whether a point lies on a line of a shape."""
    return any(distance(point, segment) <= TOUCH for segment in segments(shape))


def distance(point: Point, segment: tuple[Point, Point]) -> float:
    """How far a point is from a straight line between two others."""
    (x, y), ((x1, y1), (x2, y2)) = point, segment
    long = (x2 - x1) ** 2 + (y2 - y1) ** 2
    share = 0.0 if long == 0 else max(0.0, min(1.0, ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / long))
    return float(((x - x1 - share * (x2 - x1)) ** 2 + (y - y1 - share * (y2 - y1)) ** 2) ** 0.5)


def node_at(nodes: Sequence[Sequence[Stroke]], point: Point) -> int | None:
    """The node whose wire passes a point; None where there is none."""
    return next((at for at, node in enumerate(nodes) if any(on(point, wire) for wire in node)), None)


def _on_edge(point: Point, body: Shape) -> bool:
    if isinstance(body, Disc):
        away = ((point[0] - body.centre[0]) ** 2 + (point[1] - body.centre[1]) ** 2) ** 0.5
        return abs(away - body.radius) <= TOUCH
    return on(point, body)


def nearest(body: Shape, labels: Sequence[Words]) -> str:
    """The words that stand nearest to an outline; "" where there are none."""

    def away(words: Words) -> float:
        one, other = box_of(body), words.box
        across = max(one[0] - other[2], other[0] - one[2], 0.0)
        down = max(one[1] - other[3], other[1] - one[3], 0.0)
        return float(across + down)

    return min(labels, key=away).text if labels else ""
