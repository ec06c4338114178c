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
_SHARES, _CLEAR = (0.5, 0.3, 0.7, 0.15, 0.85), 8.0  # of a line where its words may stand; of air to all else
Value = TypeVar("Value")


def beside(pen: Pen, at: Point, text: str, size: float = SIZE, off: float = 1.0, *, led: bool = False) -> None:
    """Put words beside a point on the first of eight sides that is free, or farther off at the end of a line to it.

    `off` times as far as usual; `led`: always with a line. Raises Untold where there is no room.
    """
    for across, down in (*([] if led else _WAYS), *_FAR):
        words = _words(at, text, size, (across * off, 4.6 + (down - 4.6) * off))
        far = (across, down) in _FAR
        line = (at, (at[0] + across * 0.85, at[1] + down - 4))
        if free(pen, words.box) and not (far and _over_words(pen, line)):
            if far:
                pen.mark(*line)
            pen.shapes.append(words)
            return
    raise Untold(f"there is no room for {text!r}", "tell the picture fewer things, or farther apart")


def along(pen: Pen, start: Point, end: Point, text: str) -> None:
    """Put words beside a line, where nothing else is near, or else with a line to it, a third of its way along."""
    others = [shape for shape in pen.shapes if not (isinstance(shape, Stroke) and shape.points[:2] == (start, end))]
    for share in _SHARES:
        at = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
        for way in _WAYS[:4]:
            words = _words(at, text, SIZE, way)
            left, top, right, low = words.box
            wider = (left - _CLEAR, top - _CLEAR, right + _CLEAR, low + _CLEAR)
            if free(pen, words.box) and not any(_lies(shape, wider) for shape in others):
                pen.shapes.append(words)
                return
    third = (start[0] + (end[0] - start[0]) * 0.36, start[1] + (end[1] - start[1]) * 0.36)
    beside(pen, third, text, led=True)


def _words(at: Point, text: str, size: float, way: Point) -> Words:
    anchor: Anchor = "start" if way[0] > 0 else "end" if way[0] < 0 else "middle"
    return Words((at[0] + way[0], at[1] + way[1]), spans_of(text), size, anchor)


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
