"""A section of trunking with its cables packed in rows, each circle of its right relative size."""

from __future__ import annotations

import re
from collections.abc import Iterator

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import Point
from quizzer.picture.telling import Untold, listed

_SIZE = re.compile(r"\s*(\d+(?:\.\d+)?)[^\d]+(\d+(?:\.\d+)?)")
_CABLE = re.compile(r"\s*(\d+)\s+of\s+(\d+(?:\.\d+)?)\s*mm")
_WIDE, _HIGH, _MOST = 200.0, 150.0, 60


def draw_trunking(picture: Picture, pen: Pen) -> str:
    """The section with its lid, its measures beside it; its words give the measures and the cables."""
    found = _SIZE.match(picture.text("size"))
    if not found:
        raise Untold(f"size is {picture.text('size')!r}", "write width and height, as 50 mm x 38 mm")
    wide, high = float(found[1]), float(found[2])
    cables = picture.texts("cables")
    scale = min(_WIDE / wide, _HIGH / high)
    pen.box(0.0, 0.0, wide * scale, high * scale)
    pen.mark((-3.0, -3.0), (wide * scale + 3.0, -3.0), style="heavy")
    for (x, y), radius in packed(wide, high, sizes_of(cables)):
        pen.circle((x * scale, (high - y) * scale), radius * scale)
    pen.say((wide * scale / 2, high * scale + 18), f"{found[1]} mm", "middle")
    pen.say((-8.0, high * scale / 2 + 4), f"{found[2]} mm", "end")
    for row, text in enumerate(cables):
        pen.say((wide * scale + 12, 12.0 + 18 * row), text)
    section = f"A trunking in section, {found[1]} mm wide and {found[2]} mm high, its lid on top."
    lying = [text.replace(" of ", " cables of ", 1) for text in cables]
    return f"{section} In it lie {listed(lying)}." if cables else section


def sizes_of(cables: tuple[str, ...]) -> list[float]:
    """The diameter of every cable in mm, the thickest first. Raises Untold for what is no cable, or for too many."""
    sizes: list[float] = []
    for text in cables:
        found = _CABLE.match(text)
        if not found:
            raise Untold(f"{text!r} are no cables", "write their number and diameter, as 6 of 4.3 mm")
        if len(sizes) + int(found[1]) > _MOST:
            raise Untold(f"more than {_MOST} cables", "tell fewer")
        sizes += [float(found[2])] * int(found[1])
    return sorted(sizes, reverse=True)


def packed(wide: float, high: float, sizes: list[float]) -> Iterator[tuple[Point, float]]:
    """The middle and radius of each cable, in rows from the bottom, in mm. Raises Untold where they do not fit."""
    x, floor, row = 0.0, 0.0, 0.0
    for size in sizes:
        if x + size > wide:
            x, floor, row = 0.0, floor + row, 0.0
        row = max(row, size)
        if size > wide or floor + size > high:
            raise Untold("the cables do not fit into the trunking", "tell fewer cables, or a larger trunking")
        yield (x + size / 2, floor + size / 2), size / 2
        x += size
