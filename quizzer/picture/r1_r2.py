"""Continuity of protective conductors drawn: two cores linked at the board and read at a point, or a long lead."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.cables import Stop
from quizzer.picture.floor_words import flaws_told, reading_told, spoken, way_told
from quizzer.picture.metering import across, meter_stop, pair_of, wander
from quizzer.picture.pen import Pen
from quizzer.picture.ring import floor_told, put_board, put_floor
from quizzer.picture.telling import Untold

_LINK = 22.0  # from the middle of the board to the link


def draw_r1_r2(picture: Picture, pen: Pen) -> str:
    """A radial with a link at the board and a meter at a point, the last one where nothing else is told."""
    floor, flaws = floor_told(picture, closed=False)
    number = meter_stop(picture, floor, default=floor.around)
    link, reading, lead = picture.text("link"), picture.text("reading"), picture.text("lead")
    if not number:
        raise Untold("the meter is at the board", "measure at a point")
    put_floor(pen, floor, flaws, picture)
    put_board(pen, floor)
    if link:
        _link(pen, floor.stops[0], *pair_of(link))
    linked = f" At the board {link.replace(' ', ' and ')} are joined by a link." if link else ""
    if lead:
        wander(pen, floor.stops[0], floor.stops[number], lead, reading)
        where = f"in a lead marked {lead}, from E at the board to E at {spoken(floor, number)}"
    else:
        cores = pair_of(picture.text("across") or "L E")
        across(pen, floor, number, cores, reading)
        where = f"between {cores[0]} and {cores[1]} at {spoken(floor, number)}"
    return f"{way_told(picture, floor)}{linked} A meter {where}{reading_told(reading)}.{flaws_told(floor, flaws)}"


def _link(pen: Pen, board: Stop, one: str, other: str) -> None:
    """A short wire from core to core in the board, a dot at both ends of it."""
    ends = [(board.x + _LINK, board.terminal(core)[1]) for core in (one, other)]
    pen.wire(*ends)
    for end in ends:
        pen.dot(end)
