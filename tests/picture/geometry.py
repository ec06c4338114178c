"""What is wrong with how a drawing is laid out: words over words or lines, a part over another, anything outside.

A named exception is a pair of parts that may lie over each other, by what `faults` says of them.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise

from quizzer.picture.shapes import Box, Disc, Drawing, Shape, Stroke, Words, box_of

NEAR = 0.75  # how far parts may overlap before it is seen
Segment = tuple[tuple[float, float], tuple[float, float]]


def faults(drawing: Drawing, allowed: tuple[str, ...] = ()) -> list[str]:
    """Every fault in words; `allowed` are those that a kind names as meant, by how they begin."""
    found = [*_outside(drawing), *_words_over_words(drawing), *_words_over_lines(drawing), *_bodies(drawing)]
    found += _wires_through(drawing)
    return [fault for fault in found if not fault.startswith(allowed or ("\0",))]


def _outside(drawing: Drawing) -> Iterator[str]:
    for shape in drawing.shapes:
        left, top, right, bottom = box_of(shape)
        if left < 0 or top < 0 or right > drawing.wide or bottom > drawing.high:
            yield f"outside: {said(shape)}"


def _words_over_words(drawing: Drawing) -> Iterator[str]:
    words = [shape for shape in drawing.shapes if isinstance(shape, Words)]
    for one, other in combinations(words, 2):
        if overlap(one.box, other.box):
            yield f"words over words: {one.text!r} and {other.text!r}"


def _words_over_lines(drawing: Drawing) -> Iterator[str]:
    lines = [(shape, segment) for shape in drawing.shapes for segment in segments(shape)]
    for words in (shape for shape in drawing.shapes if isinstance(shape, Words)):
        for shape, segment in lines:
            if crosses(segment, words.box):
                yield f"words over a line: {words.text!r} and {said(shape)}"
                break


def _bodies(drawing: Drawing) -> Iterator[str]:
    bodies = [shape for shape in drawing.shapes if not isinstance(shape, Words) and shape.role == "body"]
    for one, other in combinations(bodies, 2):
        first, second = box_of(one), box_of(other)
        if overlap(first, second) and not within(first, second) and not within(second, first):
            yield f"a part over a part: {said(one)} and {said(other)}"


def _wires_through(drawing: Drawing) -> Iterator[str]:
    """A wire may end on an outline, or run inside of what holds it (a board): it crosses none."""
    bodies = [shape for shape in drawing.shapes if not isinstance(shape, Words) and shape.role == "body"]
    for wire in (shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.role == "wire"):
        for body in bodies:
            inner = box_of(body)
            for start, end in segments(wire):
                if crosses((start, end), inner) and not (inside(start, inner) or inside(end, inner)):
                    yield f"a wire through a part: {said(body)}"


def overlap(one: Box, other: Box) -> bool:
    """Whether two rooms share more than their edges."""
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > NEAR and down > NEAR


def within(inner: Box, outer: Box) -> bool:
    """Whether a room lies in another."""
    return all(a >= b - NEAR for a, b in zip(inner[:2], outer[:2], strict=True)) and all(
        a <= b + NEAR for a, b in zip(inner[2:], outer[2:], strict=True)
    )


def inside(point: tuple[float, float], box: Box) -> bool:
    """Whether a point lies well inside a room."""
    return box[0] + NEAR < point[0] < box[2] - NEAR and box[1] + NEAR < point[1] < box[3] - NEAR


def segments(shape: Shape) -> list[Segment]:
    """The straight lines of a shape; a circle as a ring of short ones."""
    match shape:
        case Words():
            return []
        case Stroke(points=points, closed=closed):
            ends = [*points, points[0]] if closed else list(points)
            return list(pairwise(ends))
        case Disc(centre=(x, y), radius=radius):
            from quizzer.picture.pen import around

            corners = [around((x, y), radius, angle) for angle in range(0, 361, 30)]
            return list(pairwise(corners))


def crosses(segment: Segment, box: Box) -> bool:
    """Whether a line runs through a room, edges aside (Liang and Barsky's clipping)."""
    (x1, y1), (x2, y2) = segment
    left, top, right, bottom = box[0] + NEAR, box[1] + NEAR, box[2] - NEAR, box[3] - NEAR
    first, last = 0.0, 1.0
    for move, room in ((x1 - x2, x1 - left), (x2 - x1, right - x1), (y1 - y2, y1 - top), (y2 - y1, bottom - y1)):
        if move == 0:
            if room < 0:
                return False
        elif move < 0:
            first = max(first, room / move)
        else:
            last = min(last, room / move)
    return first < last


def said(shape: Shape) -> str:
    """A shape in a few words."""
    if isinstance(shape, Words):
        return repr(shape.text)
    left, top, right, bottom = box_of(shape)
    return f"{shape.role} ({left:.0f}, {top:.0f}) to ({right:.0f}, {bottom:.0f})"
