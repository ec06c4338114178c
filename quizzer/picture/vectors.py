"""Phasors from one point, and the right-angled triangle of power or impedance: of fixed shape, not to scale."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen, around
from quizzer.picture.shapes import SMALL, Anchor, Point
from quizzer.picture.telling import Untold, named

NOT_TO_SCALE = "not to scale"
_LONG = 96.0
# Where an arrow may point: the angle it is drawn at, how it is spoken, and where its words stand from its tip.
_WAYS: dict[str, tuple[float, str, Point, Anchor]] = {
    "right": (0, "to the right", (8, 4.5), "start"),
    "up": (-90, "straight up", (0, -8), "middle"),
    "down": (90, "straight down", (0, 17), "middle"),
    "left": (180, "to the left", (-8, 4.5), "end"),
    "up-right": (-36, "up to the right", (8, 0), "start"),
    "down-right": (36, "down to the right", (8, 9), "start"),
    "up-left": (-144, "up to the left", (-8, 0), "end"),
    "down-left": (144, "down to the left", (-8, 9), "end"),
}
_TURNED = ("up-right", "down-right")


def draw_phasors(picture: Picture, pen: Pen) -> str:
    """Arrows from one point, each `label @ way`; with the angle from the right to a slanting one."""
    arrows = [_arrow(text) for text in picture.texts("arrows")]
    if len({way for _, way in arrows}) < len(arrows):
        raise Untold("two arrows point the same way", "give each a way of its own")
    for label, way in arrows:
        turn, _, (across, down), anchor = _WAYS[way]
        tip = around((0, 0), _LONG, turn)
        pen.arrow((0, 0), tip)
        pen.say((tip[0] + across, tip[1] + down), label, anchor)
    pen.dot((0, 0))
    angle, turned = picture.text("angle"), [way for _, way in arrows if way in _TURNED]
    if angle and not turned:
        raise Untold("an angle without a slanting arrow", "let one point up-right or down-right")
    if angle:
        _angle(pen, angle, _WAYS[turned[0]][0])
    pen.say((_LONG / 2, max(0.0, *(_tip(way)[1] for _, way in arrows)) + 42), NOT_TO_SCALE, "middle", SMALL)
    said = "; ".join(f"{named(label, 'arrow')}, {_WAYS[way][1]}" for label, way in arrows)
    between = f" The angle from the right to the slanting arrow is {named(angle, 'angle')}." if angle else ""
    return f"Arrows from one point, {NOT_TO_SCALE}: {said}.{between}"


def _arrow(text: str) -> tuple[str, str]:
    label, mark, way = (part.strip() for part in text.rpartition("@"))
    if not mark or way not in _WAYS:
        raise Untold(f"{text!r} is no arrow", "write it like V_R 20 V @ right; ways: " + ", ".join(_WAYS))
    return label, way


def _tip(way: str) -> Point:
    return around((0, 0), _LONG, _WAYS[way][0])


def _angle(pen: Pen, label: str, turn: float) -> None:
    pen.arc((0, 0), 40, 0, turn, style="thin")
    x, y = around((0, 0), 50, turn / 2)
    pen.say((x, y + 4), label)


def draw_triangle(picture: Picture, pen: Pen) -> str:
    """The right-angled triangle: a side to the right, one up from its end, and the longest back to the start."""
    real, reactive, apparent, angle = (picture.text(name) for name in ("real", "reactive", "apparent", "angle"))
    wide, high = 170.0, 104.0
    pen.mark((0, 0), (wide, 0), (wide, -high), style="line", closed=True)
    pen.mark((wide - 10, 0), (wide - 10, -10), (wide, -10))
    pen.say((wide / 2, 18), real, "middle")
    pen.say((wide + 9, -high / 2 + 4), reactive)
    pen.say((wide / 2 - 8, -high / 2 - 12), apparent, "end")
    if angle:
        pen.arc((0, 0), 44, 0, -31.5, style="thin")
        pen.say((52, -9), angle)
    pen.say((wide / 2, 40), NOT_TO_SCALE, "middle", SMALL)
    within = f"; the angle between it and the longest side, {named(angle, 'angle')}" if angle else ""
    return (
        f"A right-angled triangle, {NOT_TO_SCALE}. The side to the right: {named(real, 'side')}{within}. "
        f"The side up from its end: {named(reactive, 'side')}. The longest side: {named(apparent, 'side')}."
    )
