"""Rings and radials drawn: a board, points with two cables in each terminal, spurs, and what runs beside them."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.cables import CORES, LEVEL, STYLES, Flaw, Stop, draw_cables, flaw_of
from quizzer.picture.floor_words import device_words, flaws_told, way_told
from quizzer.picture.floors import ROW, Floor, floor_of, spur_of
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL
from quizzer.picture.telling import Untold

_MUCH = 13  # points and other things that one picture holds, for small files
_COUNTED = ("points", "spurs", "gaps", "exchanged", "bridge", "reading", "line", "neutral", "protective")
_BESIDE = {"end-to-end": 2, "cross-connected": 2}  # letters at all ends, links
_HIGH = LEVEL + 9  # half the height of a point's outline


def draw_ring(picture: Picture, pen: Pen) -> str:
    """A ring from the board and back to it; its words go the same way round."""
    floor, flaws = floor_told(picture, closed=True)
    put_floor(pen, floor, flaws, picture)
    put_board(pen, floor, picture.text("device"))
    return f"{device_words(picture)}{way_told(picture, floor)}{flaws_told(floor, flaws)}"


def draw_radial(picture: Picture, pen: Pen) -> str:
    """A radial from the board to its last point."""
    floor, flaws = floor_told(picture, closed=False)
    put_floor(pen, floor, flaws, picture)
    put_board(pen, floor, picture.text("device"))
    return f"{device_words(picture)}{way_told(picture, floor)}{flaws_told(floor, flaws)}"


def floor_told(picture: Picture, *, closed: bool) -> tuple[Floor, list[Flaw]]:
    """Where everything stands, and what is wrong with the cables. Raises Untold for what cannot be drawn."""
    spurs = [spur_of(text) for text in picture.texts("spurs")]
    beside = [*picture.texts("lengths"), *picture.texts("sizes")]
    many = sum(len(picture.texts(name)) for name in _COUNTED) + _BESIDE.get(picture.kind, 0)
    if many + len(beside) / 3 > _MUCH:
        raise Untold("it is told too much for one picture", "have fewer points, or tell less of them")
    aside = [f"{text}      " for text in beside]
    floor = floor_of(picture.texts("points"), spurs, closed=closed, aside=aside, bridge=picture.text("bridge"))
    flaws = [flaw_of(text, floor.cables) for text in (*picture.texts("gaps"), *picture.texts("exchanged"))]
    if beside and any(len(picture.texts(name)) not in {0, len(_legs(floor))} for name in ("lengths", "sizes")):
        raise Untold("lengths and sizes are not one for each cable", f"tell {len(_legs(floor))} of them")
    return floor, flaws


def _legs(floor: Floor) -> list[int]:
    """The numbers of the cables that are neither spurs nor a bridge."""
    return [at for at, cable in enumerate(floor.cables) if not cable.upright]


def put_floor(pen: Pen, floor: Floor, flaws: list[Flaw], picture: Picture) -> None:
    """Cables, points with their names, and lengths and sizes beside the cables."""
    draw_cables(pen, floor.cables, flaws)
    bridged = {end for cable in floor.cables if cable.upright and cable.other <= floor.around for end in cable[:2]}
    for number, stop in enumerate(floor.stops):
        if number:
            _point(pen, stop)
            _name(pen, stop, floor.names[number], hangs=number > floor.around, bridged=number in bridged)
    for name, away in (("lengths", 0.0), ("sizes", SMALL * 1.2)):
        for text, at in zip(picture.texts(name), _legs(floor), strict=False):
            _beside(pen, floor, at, text, away)


def _point(pen: Pen, stop: Stop) -> None:
    pen.box(stop.x - stop.half, stop.y - _HIGH, 2 * stop.half, 2 * _HIGH, style="thin")
    for core in CORES:
        pen.dot(stop.terminal(core))


def _name(pen: Pen, stop: Stop, name: str, *, hangs: bool, bridged: bool) -> None:
    """A name on the inner side of its row; beside a point on a spur."""
    if hangs:
        pen.say((stop.x + stop.half + 4, stop.y + 4), name, size=SMALL)
        return
    low = stop.y + _HIGH + 12 if stop.side < 0 else stop.y - _HIGH - 5
    if bridged:
        pen.say((stop.x - 12, low), name, "end", SMALL)
    else:
        pen.say((stop.x, low), name, "middle", SMALL)


def _beside(pen: Pen, floor: Floor, at: int, text: str, away: float) -> None:
    """Words on the outer side of a cable; beside the bend where it goes from row to row."""
    cable = floor.cables[at]
    if cable.bend is not None:
        pen.say((cable.bend + 2 * LEVEL + 6, ROW / 2 - 2 + away), text, size=SMALL)
        return
    left, right = sorted((cable.start, cable.end), key=lambda stop: stop.x)
    middle, side = (left.x + left.half + right.x - right.half) / 2, cable.end.side
    level = cable.end.terminal("L")[1]
    low = level - 7 - away if side < 0 else level + SMALL + 5 + away
    pen.say((middle, low), text, "middle", SMALL)


def put_board(pen: Pen, floor: Floor, device: str = "") -> None:
    """The board with a bar for each core, which both ends of a ring come to."""
    out, back = floor.stops[0], floor.back
    low = back.y if back else out.y
    left, top = out.x - out.half - 12, out.y - LEVEL - 10
    pen.box(left, top, 2 * out.half + 16, low - out.y + 2 * LEVEL + 20)
    for core in CORES:
        x, y = out.terminal(core)
        pen.dot((x, y))
        if back:
            end = back.terminal(core)
            pen.wire((x, y), end, style=STYLES[core])
            pen.dot(end)
            pen.say((x - 5, (y + end[1]) / 2 + 4), core, "end", SMALL)
        else:
            pen.say((x - 5, y + 4), core, "end", SMALL)
    pen.lines((left, low + LEVEL + 10 + SMALL + 2), ["board", *([device] if device else [])], size=SMALL)
