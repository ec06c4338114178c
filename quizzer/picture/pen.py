"""The pen that pictures are drawn with: lines, outlines, circles and measured words, put down in any place.

A drawing is given its natural size at the end: whoever draws need not know where the edges will be.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from quizzer.picture.shapes import (
    SIZE,
    Anchor,
    Disc,
    Drawing,
    Fill,
    Point,
    Role,
    Shape,
    Stroke,
    Style,
    Words,
    box_of,
    spans_of,
)

MARGIN = 8.0
_ROUND, _LARGE = 24, 50.0  # corners of an arc for a whole turn, three times as many from such a radius on


class Pen:
    """Collects shapes."""

    def __init__(self) -> None:
        self.shapes: list[Shape] = []

    def wire(self, *points: Point, style: Style = "line", colour: str = "") -> None:
        """A conductor from point to point. Two are joined where an end of one lies on the other."""
        self.shapes.append(Stroke(points, "wire", style, colour=colour))

    def mark(self, *points: Point, style: Style = "thin", fill: Fill = "none", closed: bool = False) -> None:
        """A line that explains: an arrow's shaft, a measure, a contact."""
        self.shapes.append(Stroke(points, "mark", style, closed, fill))

    def body(self, *points: Point, style: Style = "line", fill: Fill = "none", colour: str = "") -> None:
        """A closed outline of a thing."""
        self.shapes.append(Stroke(points, "body", style, closed=True, fill=fill, colour=colour))

    def box(
        self, left: float, top: float, wide: float, high: float, style: Style = "line", fill: Fill = "none"
    ) -> None:
        """A rectangle as the outline of a thing."""
        right, bottom = left + wide, top + high
        self.body((left, top), (right, top), (right, bottom), (left, bottom), style=style, fill=fill)

    def circle(
        self, centre: Point, radius: float, role: Role = "body", fill: Fill = "none", style: Style = "line"
    ) -> None:
        """A circle."""
        self.shapes.append(Disc(centre, radius, role, fill, style))

    def dot(self, at: Point) -> None:
        """A filled dot, where conductors are joined."""
        self.circle(at, 2.6, "mark", "ink")

    def terminal(self, at: Point) -> None:
        """A small open circle: a terminal."""
        self.circle(at, 3.0, "mark", "paper")

    def arc(
        self, centre: Point, radius: float, start: float, end: float, role: Role = "mark", style: Style = "line"
    ) -> None:
        """Part of a circle from one angle to another: in degrees, 0 to the right, growing clockwise as it is seen."""
        corners = max(5, round(abs(end - start) / 360 * _ROUND * (3 if radius > _LARGE else 1)) + 1)
        angles = [start + (end - start) * at / (corners - 1) for at in range(corners)]
        self.shapes.append(Stroke(tuple(around(centre, radius, angle) for angle in angles), role, style))

    def arrow(self, start: Point, end: Point, style: Style = "line") -> None:
        """A line with a filled head at its end."""
        (x1, y1), (x2, y2) = start, end
        long = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5 or 1.0
        across, down = (x2 - x1) / long, (y2 - y1) / long
        neck = (x2 - 7 * across, y2 - 7 * down)
        self.mark(start, neck, style=style)
        wing = (3 * down, -3 * across)
        self.mark(
            end, (neck[0] + wing[0], neck[1] + wing[1]), (neck[0] - wing[0], neck[1] - wing[1]), fill="ink", closed=True
        )

    def say(self, at: Point, text: str, anchor: Anchor = "start", size: float = SIZE) -> None:
        """Words on one line, their symbols with subscripts."""
        self.shapes.append(Words(at, spans_of(text), size, anchor))

    def lines(self, at: Point, texts: Sequence[str], anchor: Anchor = "start", size: float = SIZE) -> None:
        """Words on lines below each other, the first at the point."""
        for row, text in enumerate(texts):
            self.say((at[0], at[1] + row * size * 1.25), text, anchor, size)

    def drawing(self, words: str) -> Drawing:
        """All that was put down, moved so that it begins at the margin."""
        boxes = [box_of(shape) for shape in self.shapes]
        left, top = min(box[0] for box in boxes) - MARGIN, min(box[1] for box in boxes) - MARGIN
        wide, high = max(box[2] for box in boxes) + MARGIN - left, max(box[3] for box in boxes) + MARGIN - top
        return Drawing(round(wide, 1), round(high, 1), tuple(_moved(each, -left, -top) for each in self.shapes), words)


def around(centre: Point, radius: float, angle: float) -> Point:
    """The point at an angle on a circle: degrees, 0 to the right, growing clockwise as it is seen."""
    return (centre[0] + radius * cos(angle * pi / 180), centre[1] + radius * sin(angle * pi / 180))


def _moved(shape: Shape, across: float, down: float) -> Shape:
    match shape:
        case Stroke(points=points):
            return shape._replace(points=tuple((x + across, y + down) for x, y in points))
        case Disc(centre=(x, y)):
            return shape._replace(centre=(x + across, y + down))
        case Words(at=(x, y)):
            return shape._replace(at=(x + across, y + down))
