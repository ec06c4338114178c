"""Words put beside a point where they lie on nothing that is drawn already."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TypeVar

from quizzer.picture.pen import Pen, around
from quizzer.picture.shapes import SIZE, Anchor, Box, Disc, Point, Shape, Stroke, Words, spans_of
from quizzer.picture.telling import Untold

_WAYS = ((7.0, 4.6), (-7.0, 4.6), (0.0, -7.0), (0.0, 16.0), (6.0, -7.0), (-6.0, -7.0), (6.0, 15.0), (-6.0, 15.0))
_FAR = (
    (20.0, -16.0),
    (-20.0, -16.0),
    (34.0, -34.0),
    (-34.0, -34.0),
    (8.0, -34.0),
    (-8.0, -34.0),
    (20.0, -50.0),
    (20.0, 24.0),
)  # at the end of a line to the point
_AIR = 1.0
Value = TypeVar("Value")


def beside(pen: Pen, at: Point, text: str, size: float = SIZE, off: float = 1.0) -> None:
    """Put words beside a point on the first of eight sides that is free, or farther off at the end of a line to it.

    `off` times as far as usual. Raises Untold where there is no room.
    """
    for across, down in (*_WAYS, *_FAR):
        anchor: Anchor = "start" if across > 0 else "end" if across < 0 else "middle"
        words = Words((at[0] + across * off, at[1] + 4.6 + (down - 4.6) * off), spans_of(text), size, anchor)
        far = (across, down) in _FAR
        line = (at, (at[0] + across * 0.85, at[1] + down - 4))
        if free(pen, words.box) and not (far and _over_words(pen, line)):
            if far:
                pen.mark(*line)
            pen.shapes.append(words)
            return
    raise Untold(f"there is no room for {text!r}", "tell the picture fewer things, or farther apart")


def free(pen: Pen, box: Box) -> bool:
    """Whether no line and no words lie in a room."""
    return not any(_lies(shape, box) for shape in pen.shapes)


def chosen(table: dict[str, Value], text: str, name: str) -> Value:
    """The value of a closed word. Raises Untold for a word that the table has not."""
    if text not in table:
        raise Untold(f"{name} is {text!r}", f"{name} is one of {', '.join(table)}")
    return table[text]


def _over_words(pen: Pen, line: tuple[Point, Point]) -> bool:
    return any(isinstance(shape, Words) and _crosses(*line, shape.box) for shape in pen.shapes)


def _lies(shape: Shape, box: Box) -> bool:
    if isinstance(shape, Words):
        one = shape.box
        return one[0] < box[2] and box[0] < one[2] and one[1] < box[3] and box[1] < one[3]
    return any(_crosses(start, end, box) for start, end in _lines(shape))


def _lines(shape: Stroke | Disc) -> Iterator[tuple[Point, Point]]:
    if isinstance(shape, Disc):
        return pairwise([around(shape.centre, shape.radius, angle) for angle in range(0, 361, 30)])
    return pairwise([*shape.points, shape.points[0]] if shape.closed else shape.points)


def _crosses(start: Point, end: Point, box: Box) -> bool:
    """Whether a line runs through a room: the share of it that is inside across and down (clipping)."""
    first, last = 0.0, 1.0
    for axis in (0, 1):
        low, high, move = box[axis] - _AIR, box[axis + 2] + _AIR, end[axis] - start[axis]
        if move == 0:
            if not low < start[axis] < high:
                return False
            continue
        one, other = sorted(((low - start[axis]) / move, (high - start[axis]) / move))
        first, last = max(first, one), min(last, other)
    return first < last
