"""Three-phase loads: three branches in star round a point, or in delta from line to line. Not to scale."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.parts import LONG, slanted_resistor
from quizzer.picture.pen import Pen, around
from quizzer.picture.shapes import Anchor, Point, wide_of
from quizzer.picture.telling import named

LINES = ("L1", "L2", "L3")  # clockwise from the top
_ANGLES = (-90.0, 30.0, 150.0)
_REACH, _CORNER, _LEAD = 84.0, 112.0, 26.0  # of a branch of a star; of a corner of a delta; of the lead to a line


def draw_star(picture: Picture, pen: Pen) -> str:
    """Three branches from the lines to one point, and a neutral from it where there is one."""
    branches, neutral = picture.texts("branches"), picture.text("neutral") == "yes"
    for angle in _ANGLES:
        start, end = around((0, 0), (_REACH - LONG) / 2, angle), around((0, 0), (_REACH + LONG) / 2, angle)
        pen.wire((0, 0), start)
        slanted_resistor(pen, start, end)
        pen.wire(end, around((0, 0), _REACH, angle))
    pen.dot((0, 0))
    pen.say((-13, -40), branches[0], "end")
    for label, side in ((branches[1], 1), (branches[2], -1)):  # below the branch, and off the neutral
        pen.say((side * max(46.0, 10 + wide_of(label) / 2), 58), label, "middle")
    if neutral:
        pen.wire((0, 0), (0, 74))
        pen.terminal((0, 77))
        pen.say((9, 82), "N")
    ends = [around((0, 0), _REACH, angle) for angle in _ANGLES]
    _lines(pen, picture, ends)
    parts = "; ".join(f"from {line}, {named(label, 'branch')}" for line, label in zip(LINES, branches, strict=True))
    joined = " A fourth conductor, N, leaves that point." if neutral else ""
    return f"Three branches end at one point: {parts}.{joined}{_marked(picture)}"


def draw_delta(picture: Picture, pen: Pen) -> str:
    """Three branches between the lines."""
    branches = picture.texts("branches")
    ends = [around((0, 0), _CORNER, angle) for angle in _ANGLES]
    labels: tuple[tuple[Point, Anchor], ...] = (((36, -20), "end"), ((0, 82), "middle"), ((-66, -26), "end"))
    for start, end, label, (at, anchor) in zip(ends, [*ends[1:], ends[0]], branches, labels, strict=True):
        near, far = _between(start, end, LONG)
        pen.wire(start, near)
        slanted_resistor(pen, near, far)
        pen.wire(far, end)
        pen.say(at, label, anchor)
    for corner in ends:
        pen.dot(corner)
    if inner := picture.text("inner_current"):
        pen.arrow((-40, 42), (-8, 42))
        pen.say((-24, 34), inner, "middle")
    _lines(pen, picture, ends)
    pairs = zip(("L1 and L2", "L2 and L3", "L3 and L1"), branches, strict=True)
    parts = "; ".join(f"between {pair}, {named(label, 'branch')}" for pair, label in pairs)
    flows = f" An arrow beside the lowest branch is marked {named(inner, 'current')}." if inner else ""
    return f"Three branches join the lines: {parts}.{_marked(picture)}{flows}"


def _lines(pen: Pen, picture: Picture, ends: list[Point]) -> None:
    """The leads from three ends to their lines, the voltage between the first two and the current in the first."""
    first, second, third = ends
    pen.wire(first, (first[0], first[1] - _LEAD))
    pen.terminal((first[0], first[1] - _LEAD - 3))
    pen.say((first[0] - 8, first[1] - _LEAD + 1), LINES[0], "end")
    for (x, y), line, away, anchor in ((second, LINES[1], 1, "start"), (third, LINES[2], -1, "end")):
        pen.wire((x, y), (x + away * _LEAD, y))
        pen.terminal((x + away * (_LEAD + 3), y))
        pen.say((x + away * (_LEAD + 9), y + 4.5), line, "start" if anchor == "start" else "end")
    if line := picture.text("line_current"):
        pen.arrow((first[0] + 9, first[1] - _LEAD - 4), (first[0] + 9, first[1] - 4))
        pen.say((first[0] + 17, first[1] - 12), line)
    if between := picture.text("between"):
        near, far = _between(first, second, ((second[0] - first[0]) ** 2 + (second[1] - first[1]) ** 2) ** 0.5 - 44)
        middle = ((near[0] + far[0]) / 2 + 16, (near[1] + far[1]) / 2 - 9)
        for end in (near, far):
            pen.arrow(middle, (end[0] + 16, end[1] - 9), style="thin")
        pen.say((middle[0] + 8, middle[1]), between)


def _between(start: Point, end: Point, long: float) -> tuple[Point, Point]:
    """The two points about the middle of a line that are so far apart."""
    (x1, y1), (x2, y2) = start, end
    share = long / (2 * ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)
    x, y, across, down = (x1 + x2) / 2, (y1 + y2) / 2, (x2 - x1) * share, (y2 - y1) * share
    return (x - across, y - down), (x + across, y + down)


def _marked(picture: Picture) -> str:
    between, line = picture.text("between"), picture.text("line_current")
    said = f" Between L1 and L2: {named(between, 'voltage')}." if between else ""
    return said + (f" An arrow at L1 is marked {named(line, 'current')}." if line else "")
