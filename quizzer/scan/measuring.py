"""How much was drawn into each box of a sheet that was found.

The sheet is laid flat, each row's boxes are looked for where they should be, and what is darker than the paper around
a box is counted.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import cv2
from cv2.typing import MatLike

from quizzer.paper.sheet_layout import HIGH, LOOKS, RINGS, WIDE, BubbleRow, SheetLook
from quizzer.paper.sheet_marks import Box
from quizzer.scan.finding import Ring

_PX = 8  # pixels a millimetre of the flat sheet
_AROUND = 1.3  # millimetres about a row that are looked at; its boxes may lie this far beside their place
_INSET = 0.5  # millimetres between the middle of an outline and what counts as inside
_BESIDE = 0.45, 0.85  # from the outline outwards: where a box's paper is looked at
_LINE = 0.21  # millimetres that an outline is thick
_FOUND = 0.15  # how much darker the outlines of a row must be than the paper around them
_USUAL = 6.0  # millimetres: the side of the box that shares of ink are given for
_STRONGEST = 2.0  # times the ink of a letter as it is printed at its best
# The ink of each letter where it was printed at its best, in a box of six millimetres, as found on clean sheets.
_LETTERS = {"A": 0.041, "B": 0.053, "C": 0.034, "D": 0.048, "E": 0.040, "F": 0.033, "G": 0.045, "H": 0.046}
_ASTRAY = 0.35  # millimetres that one row may lie beside its neighbours


class RowSeen(NamedTuple):
    """A row as it was seen: its question, each box by letter, and whether its outlines were found."""

    question: int
    boxes: Mapping[str, Box]
    found: bool


class _Placed(NamedTuple):
    """How far a row lies beside its place, in pixels."""

    right: float
    down: float


def rows_seen(grey: MatLike, corners: Sequence[Ring], rows: Sequence[BubbleRow], look: str) -> tuple[RowSeen, ...]:
    """Each row of a page, from a picture in greys and the centres of the sheet's rings in it."""
    sizes = LOOKS[look]
    flat = _flat(grey, corners)
    rows = [row for row in rows if row.labels]
    placed = _agreed(rows, [_placed(flat, row, sizes) for row in rows])
    strips = [
        {label: _box(flat, _corner(row, at, sizes, place), sizes) for at, label in enumerate(row.labels)}
        for row, place in zip(rows, placed, strict=True)
    ]
    printed = _letters(strips)
    found = [_outlined(flat, row, sizes, place) >= _FOUND for row, place in zip(rows, placed, strict=True)]
    return tuple(
        RowSeen(row.question, {label: _less(box, printed[label]) for label, box in strip.items()}, there)
        for row, strip, there in zip(rows, strips, found, strict=True)
    )


def _flat(grey: MatLike, corners: Sequence[Ring]) -> MatLike:
    """The page as it would lie under a window of its size, `_PX` pixels a millimetre."""
    import numpy as np

    source = np.array([(ring.x, ring.y) for ring in corners], np.float32)
    target = (np.array(RINGS) * _PX - 0.5).astype(np.float32)
    size = round(WIDE * _PX), round(HIGH * _PX)
    return cv2.warpPerspective(grey, cv2.getPerspectiveTransform(source, target), size, flags=cv2.INTER_LINEAR)


def _corner(row: BubbleRow, at: int, sizes: SheetLook, place: _Placed) -> tuple[float, float]:
    """The top left corner of a box in the flat page, in pixels."""
    return (row.first + at * sizes.across) * _PX + place.right, row.top * _PX + place.down


def _placed(flat: MatLike, row: BubbleRow, sizes: SheetLook) -> _Placed:
    """Where the outlines of a row fit best."""
    outlines = _outlines(len(row.labels), sizes)
    room = round(_AROUND * _PX)
    left, top = round((row.first - 0.5) * _PX), round((row.top - 0.5) * _PX)
    high, wide = outlines.shape
    window = flat[top - room : top + high + room, left - room : left + wide + room]
    fits = cv2.matchTemplate(window, outlines, cv2.TM_CCOEFF_NORMED)
    _, _, _, (x, y) = cv2.minMaxLoc(fits)
    return _Placed(left + x - room - (row.first - 0.5) * _PX, top + y - room - (row.top - 0.5) * _PX)


def _outlined(flat: MatLike, row: BubbleRow, sizes: SheetLook, place: _Placed) -> float:
    """How much darker than the paper beside them the outlines are, at the worst box of a row."""
    import numpy as np

    side = round(sizes.side * _PX)

    def contrast(at: int) -> float:
        left, top = (round(each) for each in _corner(row, at, sizes, place))
        lines = [flat[top - 1 : top + 2, left : left + side].min(axis=0)]
        lines += [flat[top + side - 1 : top + side + 2, left : left + side].min(axis=0)]
        lines += [flat[top : top + side, left - 1 : left + 2].min(axis=1)]
        lines += [flat[top : top + side, left + side - 1 : left + side + 2].min(axis=1)]
        return 1 - _above(np.concatenate(lines), 0.5) / max(1.0, _paper(flat, left, top, side))

    return min(contrast(at) for at in range(len(row.labels)))


def _outlines(boxes: int, sizes: SheetLook) -> MatLike:
    """A row's outlines alone, dark on white, with half a millimetre around them."""
    import numpy as np

    wide = round(((boxes - 1) * sizes.across + sizes.side + 1) * _PX)
    page = np.full((round((sizes.side + 1) * _PX), wide), 255, np.uint8)
    for at in range(boxes):
        left, top = round((0.5 + at * sizes.across) * _PX), round(0.5 * _PX)
        end = left + round(sizes.side * _PX), top + round(sizes.side * _PX)
        cv2.rectangle(page, (left, top), end, 0, max(1, round(_LINE * _PX)))
    return cv2.GaussianBlur(page, (0, 0), 1.0)


def _agreed(rows: Sequence[BubbleRow], placed: Sequence[_Placed]) -> list[_Placed]:
    """The places, with a row that strays from the rows about it set where they have it."""
    from statistics import median

    def agreed(row: BubbleRow, own: _Placed) -> _Placed:
        near = [
            place
            for other, place in zip(rows, placed, strict=True)
            if abs(other.top - row.top) < 30 and abs(other.first - row.first) < 60
        ]
        right, down = median(one.right for one in near), median(one.down for one in near)
        if max(abs(own.right - right), abs(own.down - down)) > _ASTRAY * _PX:
            return _Placed(right, down)
        return own

    return [agreed(row, own) for row, own in zip(rows, placed, strict=True)]


def _box(flat: MatLike, corner: tuple[float, float], sizes: SheetLook) -> Box:
    """What is inside a box, against the paper around it."""
    import numpy as np

    left, top = corner
    side = sizes.side * _PX
    paper = _paper(flat, left, top, side)
    inset = _INSET * _PX
    inside = flat[round(top + inset) : round(top + side - inset), round(left + inset) : round(left + side - inset)]
    darkness = np.clip(1 - inside.astype(np.float32) / max(paper, 1.0), 0, 1)
    ink = float(darkness.mean()) * sizes.side / _USUAL  # a pencil is no thicker in a large box
    return Box(ink, float((darkness > max(0.12, 0.5 * _above(darkness, 0.95))).mean()))


def _paper(flat: MatLike, left: float, top: float, side: float) -> float:
    """How light the paper just outside a box is, with marks that stick out of it left aside."""
    import numpy as np

    near, far = (round(each * _PX) for each in _BESIDE)
    a, b, c, d = round(left), round(top), round(left + side), round(top + side)
    strips = (
        flat[b - far : b - near, a:c],
        flat[d + near : d + far, a:c],
        flat[b:d, a - far : a - near],
        flat[b:d, c + near : c + far],
    )
    return _above(np.concatenate([strip.ravel() for strip in strips]), 0.6)


def _above(values: MatLike, share: float) -> float:
    """The value that this share of them lies below: a percentile in a tenth of its time."""
    import numpy as np

    at = int(values.size * share)
    return float(np.partition(values.ravel(), at)[at])


def _letters(strips: Sequence[Mapping[str, Box]]) -> dict[str, float]:
    """How much ink each printed letter has on this page, by the one whose boxes are emptiest.

    Somebody may cross one letter throughout, but nobody crosses all of them.
    """
    by_letter: dict[str, list[float]] = {}
    for strip in strips:
        for label, box in strip.items():
            by_letter.setdefault(label, []).append(box.ink)
    strength = min((sorted(inks)[len(inks) // 4] / _LETTERS[label] for label, inks in by_letter.items()), default=1.0)
    return {label: _LETTERS[label] * min(strength, _STRONGEST) for label in by_letter}


def _less(box: Box, printed: float) -> Box:
    return box._replace(ink=box.ink - printed)
